import { cut, type Detail, edge, ink, thin, times } from '../detail.ts';

export const clothCable: Detail = {
  id: 'cloth-cable',
  title: 'Early cloth-covered cable, stripped back',
  desc: 'A woven, tarred cloth jacket holds two conductors. Each has its own cloth over rubber. A paper filler lies between them. There is no bare ground wire.',
  tell: 'Woven cloth outside, two wires inside. Rubber hardens where it was hot: do not bend it; look at the ends in boxes above lamps.',
  shows: ['materials/cloth-cable', 'failures/brittle-wire-insulation'],
  height: 196,
  marks: [
    cut('M0 70H92Q100 90 92 124H0Z'),
    thin(
      times(
        8,
        (i) =>
          `M${i * 12} 70l14 18M${i * 12} 88l14 18M${i * 12} 106l14 18M${12 + i * 12} 70l-14 18M${12 + i * 12} 88l-14 18M${12 + i * 12} 106l-14 18`,
      ),
    ),
    cut('M94 74L150 62V78L95 90ZM95 106L150 118V134L94 122Z', 'grid'),
    cut('M150 64L184 56V68L150 76ZM150 120L184 128V140L150 132Z', 'dots'),
    ink('M184 60L230 49V54L184 65ZM184 131L230 142V147L184 136Z'),
    cut('M96 92Q120 88 138 98Q120 108 96 104Z'),
    edge('M102 96q12 -2 24 2'),
  ],
  notes: [
    { say: 'copper, may be tinned', to: [210, 56] },
    { say: 'rubber: hard and brittle with heat', to: [172, 66] },
    { say: 'paper filler, no ground', to: [130, 98] },
    { say: 'woven jacket', to: [60, 118] },
  ],
};
