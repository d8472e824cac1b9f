import { arrow, cut, type Detail, edge, rect, telling, thin, times } from '../detail.ts';

export const undrainedVeneer: Detail = {
  id: 'undrained-veneer',
  title: 'Brick veneer without a way out for water',
  desc: 'A section at the foot of a brick-veneer wall. Water that passes the brick runs down the space behind it. Mortar droppings fill the foot, there are no open joints, and the soil is above the shelf: the sheathing gets wet.',
  tell: 'Look for open joints in the lowest course, above soil. None, or soil over them, with veneer on a wooden frame: meter the wall inside.',
  shows: ['failures/undrained-brick-veneer', 'materials/brick-veneer'],
  height: 250,
  marks: [
    cut(rect(64, 4, 28, 178), 'brick'),
    thin(times(14, (i) => `M64 ${16 + i * 12}h28`)),
    cut(rect(106, 4, 10, 178), 'timber'),
    cut(rect(116, 4, 74, 12), 'timber'),
    thin('M116 16V150M190 16V150'),
    cut(rect(106, 150, 90, 20), 'timber'),
    cut(rect(190, 4, 10, 140), 'dots'),
    cut('M60 182H200V248H60Z', 'concrete'),
    cut('M0 150H64V182H60V248H0Z', 'earth'),
    cut('M92 152q7 -12 14 0v30h-14z', 'dots'),
    telling('M99 30V140'),
    arrow(40, 62, 62, 70),
    arrow(99, 120, 99, 146),
    telling('M106 150q14 10 4 28'),
    edge('M0 150H64'),
    thin('M196 144h36M196 150h36'),
  ],
  notes: [
    { say: 'rain passes the brick', to: [60, 68] },
    { say: 'and runs down this space', to: [99, 100] },
    { say: 'mortar fills the foot, no open joints', to: [98, 166] },
    { say: 'plate and sheathing stay wet', to: [130, 160] },
  ],
};
