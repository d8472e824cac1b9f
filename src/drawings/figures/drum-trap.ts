import { arrow, cut, type Detail, edge, rect, telling, thin, times } from '../detail.ts';

export const drumTrap: Detail = {
  id: 'drum-trap',
  title: 'A drum trap under a bath floor',
  desc: 'A lead or iron drum stands between the joists. The bath waste enters low, the outlet leaves high, and a round cover is set flush in the floor beside the tub.',
  tell: 'A round metal cover in the floor near the tub. It clogs, can be hard to open, and an opened cover may not seal again.',
  shows: ['failures/drum-trap', 'materials/lead-waste'],
  height: 216,
  marks: [
    edge('M4 20q2 52 16 52h64q10 0 12 -52'),
    cut(rect(0, 78, 232, 10), 'timber'),
    cut(rect(6, 88, 16, 92), 'timber'),
    cut(rect(210, 88, 16, 92), 'timber'),
    cut('M112 88H170V170H112Z'),
    edge('M112 108H50V76M112 122H38V76'),
    thin(times(5, (i) => `M116 ${126 + i * 9}h50`)),
    thin('M112 120q14 -4 29 0t29 0'),
    edge('M170 98H232M170 112H232'),
    telling('M110 78H172V86H110Z'),
    arrow(60, 115, 98, 115),
    arrow(184, 105, 214, 105),
  ],
  notes: [
    { say: 'round cover, flush in the floor', to: [160, 82] },
    { say: 'outlet high: no vent of its own', to: [200, 112] },
    { say: 'waste enters low', to: [72, 122] },
    { say: 'drum holds water, and hair', to: [150, 150] },
  ],
};
