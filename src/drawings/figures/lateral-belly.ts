import { arrow, cut, type Detail, edge, rect, telling, thin } from '../detail.ts';

export const lateralBelly: Detail = {
  id: 'lateral-belly',
  title: 'A belly in a drain, and a pipe pressed out of round',
  desc: 'Above, a buried drain sags: water stands in the low place and solids settle. Below, three cross sections of pitch-fiber pipe: round, oval, and folded in.',
  tell: 'On a camera: the lens goes under water and comes out again. An oval picture is a pipe pressed flat: it is not cured by rodding.',
  shows: ['failures/lateral-belly', 'failures/fiber-lateral-deformed', 'materials/bituminized-fiber-lateral'],
  height: 238,
  marks: [
    cut(rect(0, 14, 232, 118), 'earth'),
    edge('M0 14H232'),
    cut('M0 46Q70 56 116 86T232 78V102Q160 124 116 112T0 72Z'),
    telling('M84 94Q116 84 196 92'),
    thin('M96 104q20 8 40 4t40 -2M110 100h12M140 98h14M166 98h12'),
    arrow(12, 60, 50, 68),
    cut('M10 186a26 26 0 1 0 52 0a26 26 0 1 0 -52 0zM17 186a19 19 0 1 0 38 0a19 19 0 1 0 -38 0z', 'dense'),
    cut('M86 188a32 18 0 1 0 64 0a32 18 0 1 0 -64 0zM93 188a25 11 0 1 0 50 0a25 11 0 1 0 -50 0z', 'dense'),
    cut('M166 186Q166 166 186 170Q200 192 212 170Q230 164 230 186Q228 210 198 208Q168 210 166 186Z', 'dense'),
    telling('M186 172Q199 194 212 172'),
  ],
  notes: [
    { say: 'water stands here between uses', to: [150, 92] },
    { say: 'solids settle', to: [130, 108] },
    { say: 'round, then oval', to: [142, 176] },
    { say: 'then folded in', to: [199, 190] },
  ],
};
