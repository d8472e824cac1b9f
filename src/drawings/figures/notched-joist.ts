import { cut, type Detail, edge, rect, telling, thin, times } from '../detail.ts';

export const notchedJoist: Detail = {
  id: 'notched-joist',
  title: 'A joist notched at its end',
  desc: 'A joist seen from the side rests on a beam by a notch that takes half of its depth. A split runs along the grain from the inner corner of the notch.',
  tell: 'A split that starts at the corner of a notch and runs with the grain. Mark its end with a date; it may be running.',
  shows: ['failures/notched-joist-split'],
  height: 214,
  marks: [
    cut(rect(0, 26, 232, 10), 'timber'),
    cut('M0 36H232V118H72V80H0Z', 'timber'),
    cut(rect(6, 80, 60, 84), 'timber'),
    thin(times(5, (i) => `M6 ${94 + i * 14}q30 -6 60 0`)),
    telling('M72 80Q100 76 122 80T176 77'),
    edge('M72 118H232'),
    thin('M196 36V118M190 40l12 0M190 114l12 0'),
  ],
  notes: [
    { say: 'half the depth is gone here', to: [40, 76] },
    { say: 'split from the corner', to: [140, 79] },
    { say: 'full depth', to: [196, 104] },
    { say: 'beam', to: [60, 140] },
  ],
};
