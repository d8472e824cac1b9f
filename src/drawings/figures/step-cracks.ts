import { arrow, cut, type Detail, edge, rect, telling, thin, times } from '../detail.ts';

export const stepCracks: Detail = {
  id: 'step-cracks',
  title: 'Step cracks in a masonry foundation',
  desc: 'The face of a block or brick wall. A crack climbs in steps along the joints from a corner that has sunk. It is wider at the top than at the bottom, which tells which way the corner turns.',
  tell: 'Note direction, width at both ends, and whether the faces are offset. Wider at the top: the corner drops away. Date it; one look is shape, not movement.',
  shows: ['failures/step-cracks-in-foundation'],
  height: 222,
  marks: [
    cut('M0 176H232V218H0Z', 'earth'),
    edge('M0 28H180L232 34V196L180 184L0 176Z'),
    thin(times(7, (i) => `M0 ${46 + i * 19}h232`)),
    thin(times(8, (i) => times(5, (k) => `M${22 + k * 46 + (i % 2) * 23} ${28 + i * 18.6}v18`))),
    telling('M92 158V140H116V121H139V102H162V83H185V64H208V32M208 32h6V66H190V84'),
    cut(rect(0, 8, 232, 18), 'timber'),
    arrow(216, 150, 222, 188),
    thin('M196 40h20'),
  ],
  notes: [
    { say: 'wide at the top', to: [210, 46] },
    { say: 'steps along the joints', to: [150, 102] },
    { say: 'hair-thin at its end', to: [94, 152] },
    { say: 'this corner sinks', to: [220, 178] },
  ],
};
