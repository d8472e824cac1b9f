import { cut, type Detail, disc, edge, ink, rect, telling, thin } from '../detail.ts';

export const falseGround: Detail = {
  id: 'false-ground',
  title: 'A three-slot outlet with a false ground',
  desc: 'The back of an outlet in its box. The cable has two wires and no ground. A short jumper ties the ground screw to the neutral screw, so that a plain tester shows no fault.',
  tell: 'A simple tester is fooled. If the wiring is of two wires and three-slot outlets test well, suspect a jumper; an electrician opens one.',
  shows: ['failures/false-ground', 'failures/ungrounded-three-slot-outlets'],
  height: 232,
  marks: [
    edge(rect(18, 24, 196, 184)),
    cut(rect(70, 44, 92, 144)),
    thin('M86 44v-12h60v12M86 188v12h60v-12'),
    thin(rect(92, 66, 48, 40)),
    thin(rect(92, 126, 48, 40)),
    cut(disc(64, 84, 7), 'metal'),
    cut(disc(64, 146, 7), 'metal'),
    cut(disc(168, 84, 7)),
    cut(disc(168, 146, 7), 'metal'),
    ink('M24 26h6L60 80l-5 3zM206 26h-5L172 80l4 3z'),
    telling('M168 146q26 -6 22 -34t-22 -28'),
    cut('M20 20h16v10h-16zM196 20h16v10h-16z', 'dots'),
    edge('M0 8L24 24M232 8L208 24'),
  ],
  notes: [
    { say: 'two wires come in, no third', to: [208, 24] },
    { say: 'neutral screw', to: [170, 84] },
    { say: 'jumper from neutral to ground', to: [190, 116] },
    { say: 'ground screw', to: [170, 147] },
  ],
};
