import { cut, type Detail, edge, rect, thin, times } from '../detail.ts';

export const doubleWytheBrick: Detail = {
  id: 'double-wythe-brick',
  title: 'A solid brick wall, and a veneer, from the street and cut through',
  desc: 'Above, a solid wall: courses of short ends (headers) tie two thicknesses of brick together. Below, a veneer: one thickness, all long faces, tied to a wooden frame across a space.',
  tell: 'Rows of short brick ends every fifth to seventh course mean a solid wall. All long faces: look at the depth of a window reveal.',
  shows: ['materials/solid-brick', 'materials/brick-wall', 'materials/solid-brick-face'],
  height: 262,
  marks: [
    edge(rect(4, 6, 120, 108)),
    thin(times(8, (i) => `M4 ${18 + i * 12}h120`)),
    thin(
      times(9, (i) =>
        i === 4
          ? times(8, (k) => `M${18 + k * 14} 54v12`)
          : times(4, (k) => `M${18 + k * 28 + (i % 2) * 12} ${6 + i * 12}v12`),
      ),
    ),
    cut(rect(150, 6, 32, 108), 'brick'),
    cut(rect(184, 6, 32, 108), 'brick'),
    cut(rect(150, 54, 66, 12), 'brick'),
    edge(rect(4, 146, 120, 108)),
    thin(times(8, (i) => `M4 ${158 + i * 12}h120`)),
    thin(times(9, (i) => times(4, (k) => `M${18 + k * 28 + (i % 2) * 12} ${146 + i * 12}v12`))),
    cut(rect(150, 146, 24, 108), 'brick'),
    cut(rect(184, 146, 8, 108), 'timber'),
    cut(rect(192, 146, 34, 10), 'timber'),
    edge('M226 146V254M192 156V254'),
    edge('M168 190h20v6M168 230h20v6'),
  ],
  notes: [
    { say: 'solid: two thick, tied by headers', to: [206, 60] },
    { say: 'row of short ends', to: [112, 62] },
    { say: 'veneer: one thick, a space, a frame', to: [184, 176] },
    { say: 'metal ties, may be rusted', to: [186, 232] },
  ],
};
