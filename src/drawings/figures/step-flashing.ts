import { cut, type Detail, edge, over, rect, telling, thin, times } from '../detail.ts';

export const stepFlashing: Detail = {
  id: 'step-flashing',
  title: 'Step flashing where a roof meets a wall',
  desc: 'A sloping roof runs along a wall of clapboards. One bent metal piece goes with each course of shingles, each over the one below, its upright leg behind the siding.',
  tell: 'Count the steps: one for each course, tucked behind the siding. One long strip, or tar along the joint, is a patch.',
  shows: ['failures/failed-wall-flashing'],
  height: 232,
  marks: [
    thin(times(11, (i) => `M0 ${12 + i * 14}H232`)),
    over('M0 96L232 196V232H0Z'),
    cut('M0 100L232 200V222L0 122Z', 'timber'),
    ...[4, 3, 2, 1, 0].map((i) => cut(`M${i * 44 + 4} ${62 + i * 19}h48v${58}l-48 -20.7z`, 'metal')),
    over(times(5, (i) => `M${i * 44 + 2} ${100 + i * 19}l56 24v-5l-56 -24z`)),
    edge('M0 122L232 222'),
    telling(times(5, (i) => `M${i * 44 + 4} ${62 + i * 19}h48v19`)),
    cut(rect(0, 0, 232, 12), 'timber'),
  ],
  notes: [
    { say: 'siding laps over the upright legs', to: [170, 40] },
    { say: 'one piece for each course', to: [122, 112] },
    { say: 'each over the one below', to: [184, 134] },
    { say: 'its flat leg lies under the shingle', to: [210, 186] },
  ],
};
