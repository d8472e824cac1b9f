import { arrow, cut, type Detail, edge, rect, telling, thin, times } from '../detail.ts';

export const rustedLintel: Detail = {
  id: 'rusted-lintel',
  title: 'A steel lintel over a window, rusted',
  desc: 'The front of a brick wall above a window. The steel angle that carries the brick has rusted and swelled. It lifts the courses above it, and steps of cracked joints run up from both ends.',
  tell: 'Rust takes several times the room of steel: level cracks at the ends of the lintel and a sag or a lift of the brick above it.',
  shows: ['failures/rusted-lintels'],
  height: 226,
  marks: [
    cut(rect(0, 4, 232, 120), 'brick'),
    thin(times(9, (i) => `M0 ${16 + i * 12}H232`)),
    cut('M0 124H44V222H0ZM188 124H232V222H188Z', 'brick'),
    edge(rect(44, 132, 144, 90)),
    thin('M56 144H176V222M116 144V222'),
    cut('M30 122Q116 116 202 122V132H30Z', 'metal'),
    telling('M30 124H18V112H8V100H2M202 124H214V112H224V100H230'),
    thin(times(7, (i) => `M${52 + i * 21} 126l6 3`)),
    arrow(116, 112, 116, 88),
  ],
  notes: [
    { say: 'courses lifted', to: [116, 92] },
    { say: 'stepped cracks from the ends', to: [215, 112] },
    { say: 'flaking, swollen steel', to: [176, 128] },
    { say: 'gap closed with caulk traps water', to: [188, 134] },
  ],
};
