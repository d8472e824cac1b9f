import { cut, type Detail, edge, ink, rect, telling, thin, times } from '../detail.ts';

export const splitBusPanel: Detail = {
  id: 'split-bus-panel',
  title: 'A split-bus panel',
  desc: 'The front of a breaker panel with no single main. Up to six double breakers stand in the upper half; one of them, marked lighting or main, feeds the lower half. All of the upper ones must be off to cut power.',
  tell: 'No main, two groups of breakers. Turning off the one marked "main" leaves the upper group and the lugs live.',
  shows: ['materials/split-bus-panel', 'failures/no-single-main'],
  height: 252,
  marks: [
    edge(rect(24, 6, 184, 242)),
    thin(rect(34, 16, 164, 222)),
    edge('M88 0V22M116 0V22M144 0V22'),
    ink('M96 22h6v96h-6zM130 22h6v96h-6zM96 146h6v86h-6zM130 146h6v86h-6z'),
    ...[0, 1, 2].flatMap((i) => [cut(rect(46, 30 + i * 30, 46, 24)), cut(rect(140, 30 + i * 30, 46, 24))]),
    thin(
      times(
        3,
        (i) => `M60 ${36 + i * 30}v12M72 ${36 + i * 30}v12M154 ${36 + i * 30}v12M166 ${36 + i * 30}v12`,
      ),
    ),
    telling('M140 102H186M163 114v18q0 10 -12 10h-34V146M96 146h40'),
    ...[0, 1, 2, 3, 4].flatMap((i) => [
      cut(rect(46, 150 + i * 16, 46, 12)),
      cut(rect(140, 150 + i * 16, 46, 12)),
    ]),
  ],
  notes: [
    { say: 'service lugs, live at all times', to: [100, 26] },
    { say: 'upper group: up to six handles', to: [176, 48] },
    { say: 'this one feeds the lower half', to: [178, 106] },
    { say: 'lower bus: lights and outlets', to: [176, 190] },
  ],
};
