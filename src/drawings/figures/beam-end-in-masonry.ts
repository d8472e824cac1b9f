import { cut, type Detail, edge, rect, telling, thin, times } from '../detail.ts';

export const beamEndInMasonry: Detail = {
  id: 'beam-end-in-masonry',
  title: 'A beam end in a brick wall, rotted',
  desc: 'A section where a wooden beam is let into a solid brick wall. Damp from outside has rotted the end inside its pocket; the beam has crushed and sunk, and a gap shows above it.',
  tell: 'A gap over the beam, a dark halo at the pocket, a floor that dips toward the wall. Probe from the side, near the pocket.',
  shows: ['failures/beam-ends-rotted-in-masonry'],
  height: 216,
  marks: [
    cut('M20 4H84V70H52V132H84V212H20Z', 'brick'),
    thin(times(17, (i) => `M20 ${16 + i * 12}h32`)),
    cut('M84 80L232 68V120L84 130Z', 'timber'),
    cut('M54 84Q70 78 84 80V130Q66 134 54 128Q62 106 54 84Z', 'dots'),
    telling('M52 76H84M84 70V80'),
    edge('M84 62L232 60'),
    thin('M84 66h148'),
    telling('M10 60l8 10M6 100l12 2M10 140l8 -8'),
    cut(rect(84, 132, 6, 80), 'dots'),
  ],
  notes: [
    { say: 'gap opens over the beam', to: [78, 75] },
    { say: 'wet brick holds damp at the end', to: [30, 102] },
    { say: 'end crushed in its pocket', to: [70, 118] },
    { say: 'probe here, from the side', to: [98, 124] },
  ],
};
