import { cut, type Detail, edge, rect, telling, thin, times } from '../detail.ts';

export const plasterKeys: Detail = {
  id: 'plaster-keys',
  title: 'A plaster ceiling on wood lath, cut through',
  desc: 'Lath is nailed under a joist with gaps. Plaster pressed through the gaps curls over into keys that carry the ceiling. On the right the keys are broken and the plaster hangs away from the lath.',
  tell: 'From above: broken keys lie loose. From below: it gives under a light press, or sounds hollow. Never stand under a sag.',
  shows: ['materials/plaster-on-wood-lath', 'failures/plaster-ceiling-letting-go'],
  height: 226,
  marks: [
    cut(rect(100, 6, 30, 104), 'timber'),
    ...[0, 1, 2, 3, 4, 5, 6].map((i) => cut(rect(4 + i * 33, 110, 23, 10), 'timber')),
    cut(rect(2, 120, 124, 18), 'dots'),
    ...[27, 60].map((x) =>
      cut(`M${x + 1} 121V110Q${x - 6} 109 ${x - 6} 101H${x + 16}Q${x + 16} 109 ${x + 9} 110V121Z`, 'dots'),
    ),
    cut('M126 122L230 142V162L126 140Z', 'dots'),
    telling('M158 128l6 -7 4 6 6 -7M190 134l6 -7 4 6 6 -7'),
    cut('M140 98h10l4 8h-14zM176 100h9l5 7h-16zM206 98h10l2 9h-12z', 'dots'),
    thin(times(4, (i) => `M${140 + i * 22} 124v${4 + i * 4}`)),
    edge('M2 138H126L230 162'),
  ],
  notes: [
    { say: 'joist', to: [128, 50] },
    { say: 'broken keys lie on the lath', to: [212, 100] },
    { say: 'key: plaster curled over lath', to: [62, 106] },
    { say: 'torn off: a gap that a press closes', to: [214, 146] },
  ],
};
