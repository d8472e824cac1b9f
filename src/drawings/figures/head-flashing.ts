import { arrow, cut, type Detail, edge, rect, telling, thin, times } from '../detail.ts';

export const headFlashing: Detail = {
  id: 'head-flashing',
  title: 'The head of a window, with and without flashing',
  desc: 'Two sections above a window. Left, a bent metal cap laps over the head trim and turns up behind the siding. Right, only a bead of caulk closes the joint, and water gets behind the trim.',
  tell: 'Sight along the top edge of the trim: thin metal with a drip, or caulk. Caulk alone is a matter of time.',
  shows: ['failures/missing-head-flashing', 'failures/unflashed-openings-under-cladding'],
  height: 230,
  marks: [
    ...[0, 124].flatMap((x) => [
      cut(rect(x + 50, 4, 8, 116), 'timber'),
      cut(rect(x + 58, 4, 30, 116)),
      cut(`M${x + 42} 4H${x + 50}V70H${x + 36}L${x + 42} 38H${x + 36}Z`),
      cut(rect(x + 20, 84, 30, 40), 'timber'),
      cut(rect(x + 40, 124, 48, 18), 'timber'),
      cut(rect(x + 54, 142, 10, 80), 'timber'),
    ]),
    telling('M49 40V80L18 84V90'),
    cut('M156 70H174V84H150Z', 'dense'),
    arrow(150, 44, 168, 78),
    telling('M173 82V132'),
    thin(times(3, (i) => `M${176 + i * 5} 120v${14 + i * 6}`)),
    arrow(14, 92, 12, 120),
    edge('M98 4V226'),
  ],
  notes: [
    { say: 'metal turns up behind the siding', to: [49, 50] },
    { say: 'right: caulk alone', to: [168, 76] },
    { say: 'drip throws water clear', to: [20, 92] },
    { say: 'water behind the trim', to: [173, 118] },
  ],
};
