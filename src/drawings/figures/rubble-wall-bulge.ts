import { arrow, cut, type Detail, edge, hidden, telling, thin } from '../detail.ts';

export const rubbleWallBulge: Detail = {
  id: 'rubble-wall-bulge',
  title: 'A rubble stone wall parting into two skins',
  desc: 'A section through a thick stone wall. Between its two faces the lime core has washed to sand. The inner face bulges into the cellar, stones are loose, and a hard cement coat hides the joint lines.',
  tell: 'A belly in the inner face, sand at its foot, a hollow sound. A hard coat over it hides the bulge; it does not hold it.',
  shows: ['failures/rubble-wall-bulge', 'materials/stone-wall'],
  height: 256,
  marks: [
    cut('M0 40H70V240H0Z', 'earth'),
    cut('M70 30H98V240H70Z', 'stone'),
    cut('M98 30H112Q126 140 112 240H98Z', 'dots'),
    cut('M112 30H136Q190 140 138 240H112Q126 140 112 30Z', 'stone'),
    thin('M139 30Q194 140 141 240M144 30Q199 140 146 240'),
    hidden('M138 30V240'),
    telling('M118 90Q126 140 117 196'),
    cut('M140 240q20 -14 44 0z', 'dots'),
    cut('M60 10H232V30H60Z', 'timber'),
    edge('M0 240H232'),
    arrow(186, 130, 204, 130),
  ],
  notes: [
    { say: 'beam bears on the inner skin', to: [130, 32] },
    { say: 'core washed to sand', to: [122, 112] },
    { say: 'bulge, under a hard cement coat', to: [168, 138] },
    { say: 'sand at the foot', to: [168, 236] },
  ],
};
