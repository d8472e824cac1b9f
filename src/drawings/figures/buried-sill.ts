import { arrow, cut, type Detail, edge, rect, telling, thin, times } from '../detail.ts';

export const buriedSill: Detail = {
  id: 'buried-sill',
  title: 'A sill buried by a later slab',
  desc: 'A section at an outside wall. The old sill sits on a low stone wall. A slab porch and raised soil were later laid against it, above the sill, and water stands at the joint.',
  tell: 'Inside floor lower than the slab or the soil outside: the sill between them is buried. Probe from the cellar side, with leave.',
  shows: ['failures/buried-sill', 'failures/rotted-sill'],
  height: 240,
  marks: [
    cut(rect(142, 122, 58, 106), 'stone'),
    cut('M0 112H138V130H142V236H0Z', 'earth'),
    cut('M0 88H140V112H0Z', 'concrete'),
    cut(rect(150, 102, 34, 22), 'timber'),
    cut(rect(156, 4, 26, 98), 'timber'),
    cut(rect(184, 84, 48, 20), 'timber'),
    edge('M182 80H232'),
    thin(times(5, (i) => `M150 ${6 + i * 16}l-8 2v14l8 0`)),
    telling('M140 88V124M150 106q-6 6 0 12M150 124h30'),
    arrow(128, 60, 140, 86),
    cut('M152 104q14 8 26 2v16h-26z', 'dots'),
  ],
  notes: [
    { say: 'water stands at this joint', to: [138, 86] },
    { say: 'floor is below the slab top', to: [214, 84] },
    { say: 'sill: wet, hidden, unprobed', to: [172, 114] },
    { say: 'later slab and raised soil', to: [100, 106] },
  ],
};
