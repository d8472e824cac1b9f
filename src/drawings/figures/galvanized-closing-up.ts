import { cut, type Detail, disc, edge, telling, thin, times } from '../detail.ts';

export const galvanizedClosingUp: Detail = {
  id: 'galvanized-closing-up',
  title: 'Galvanized steel pipe, cut across',
  desc: 'Three sections of the same pipe size. New: an open bore. After decades: a crust of rust narrows it. Late: a crooked hole the width of a pencil, and threads eaten thin at the joint.',
  tell: 'Run two fixtures at once. Flow that drops, and rust at threaded joints, speak of the inside, whatever the outside looks like.',
  shows: ['failures/galvanized-closing-up', 'materials/galvanized-supply'],
  height: 240,
  marks: [
    cut(disc(54, 52, 44), 'metal'),
    cut(disc(54, 52, 34)),
    cut(disc(170, 52, 44), 'metal'),
    cut(disc(170, 52, 34), 'dots'),
    cut('M150 52q2 -20 20 -20t22 20q-4 20 -22 18t-20 -18z'),
    cut(disc(54, 170, 44), 'metal'),
    cut(disc(54, 170, 34), 'dots'),
    telling('M48 168q4 -10 12 -5t-2 12q-9 3 -10 -7z'),
    cut('M120 140H172V200H120Z', 'metal'),
    cut('M172 152H232V188H172Z'),
    thin(times(5, (i) => `M${174 + i * 5} 152v36`)),
    telling('M174 190q4 8 0 14M186 190q3 10 0 20'),
    edge('M120 162H232M120 178H232'),
  ],
  notes: [
    { say: 'new bore', to: [70, 34] },
    { say: 'crust narrows it', to: [190, 66] },
    { say: 'pencil-wide at the end', to: [60, 168] },
    { say: 'threads rust through first', to: [182, 192] },
  ],
};
