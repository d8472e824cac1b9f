import { cut, type Detail, edge, rect, telling, thin, times } from '../detail.ts';

export const clayLateralRoots: Detail = {
  id: 'clay-lateral-roots',
  title: 'A clay sewer lateral with roots and an offset',
  desc: 'Short clay pipes with bell ends lie in the ground, sloping to the street. Roots enter at a joint and fill the pipe. One length has dropped, and water stands behind the step.',
  tell: 'Old trees over the line, and pipes in two- or three-foot lengths, mean many joints. A camera before the deadline; flow at the sinks says little.',
  shows: ['materials/clay-lateral', 'failures/lateral-roots-and-offsets'],
  height: 226,
  marks: [
    cut(rect(0, 46, 232, 176), 'earth'),
    edge('M0 46H232'),
    edge('M96 46q6 -16 4 -46M116 46q-4 -16 2 -46'),
    telling('M104 48Q88 80 92 104Q94 124 110 132M108 48Q112 90 98 112M104 76Q80 92 74 118Q96 126 104 140'),
    cut('M0 96H74V90H88V140H74V134H0Z'),
    thin('M0 102H78M0 128H78'),
    cut('M84 100H158V94H172V146H158V138H84Z'),
    thin('M84 106H162M84 132H162'),
    cut('M168 114H232V154H168Z'),
    thin('M168 120H232M168 148H232'),
    telling('M160 130v18'),
    thin(times(3, (i) => `M${112 + i * 16} ${127}h10`)),
    telling('M86 112q8 6 6 14M92 110q10 4 14 16M98 118q12 2 20 8'),
  ],
  notes: [
    { say: 'roots find the joint', to: [98, 84] },
    { say: 'mat inside the pipe', to: [106, 122] },
    { say: 'one length dropped: paper catches', to: [162, 142] },
    { say: 'bell joint, no gasket', to: [172, 100] },
  ],
};
