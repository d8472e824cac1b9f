import { arrow, cut, type Detail, disc, edge, rect, telling, thin, times } from '../detail.ts';

export const onePipeSteam: Detail = {
  id: 'one-pipe-steam',
  title: 'One-pipe steam',
  desc: 'A radiator with one pipe and an air vent on the far end. Steam rises and water runs back in the same pipe, so the pipes and the radiator must slope to the boiler. The boiler has a gauge glass half full.',
  tell: 'One pipe in, a small bullet-shaped vent opposite. A level on the radiator shows which way the water runs. An empty gauge glass: nobody starts it.',
  shows: ['materials/steam-boiler', 'materials/steam-radiators', 'failures/steam-pipes-banging'],
  height: 262,
  marks: [
    ...[0, 1, 2, 3, 4, 5].map((i) => cut(`M${70 + i * 22} ${26 - i * 1.4}q9 -12 18 0v66q-9 12 -18 0z`)),
    edge('M70 40H60V104'),
    edge('M52 104h16v8h-16z'),
    telling('M202 50h8v-14q4 -6 8 0v14h-8'),
    cut(rect(0, 116, 232, 14), 'timber'),
    edge('M56 112V160L16 166M64 112V166L24 172M16 166V206M24 172V206'),
    cut(rect(8, 206, 84, 52), 'metal'),
    edge('M92 214h12v36h-12'),
    cut(rect(100, 214, 8, 36)),
    thin('M100 232h8'),
    arrow(74, 190, 40, 172),
    arrow(60, 152, 60, 134),
    thin(times(2, (i) => `M${14 + i * 10} 206v-4`)),
    thin(disc(40, 232, 9)),
  ],
  notes: [
    { say: 'air vent at the far end', to: [214, 38] },
    { say: 'radiator tips to the pipe', to: [150, 84] },
    { say: 'one pipe: steam up, water down', to: [60, 142] },
    { say: 'all pipes slope to the boiler', to: [44, 168] },
    { say: 'gauge glass half full', to: [104, 238] },
  ],
};
