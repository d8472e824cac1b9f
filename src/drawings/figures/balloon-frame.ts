import { arrow, cut, type Detail, edge, rect, thin, times } from '../detail.ts';

export const balloonFrame: Detail = {
  id: 'balloon-frame',
  title: 'An outside wall of a balloon frame',
  desc: 'Studs run in one length from the sill to the roof plate. The upper floor hangs on a ribbon let into the studs. Nothing closes the space between studs, from cellar to attic.',
  tell: 'From the attic or the cellar, look down or up between studs: daylight, a draft or a dropped plumb line shows an open way for fire and air.',
  shows: ['materials/balloon-frame', 'failures/balloon-no-fire-stops'],
  height: 262,
  marks: [
    cut(rect(44, 6, 52, 12), 'timber'),
    cut(rect(44, 18, 12, 202), 'timber'),
    cut(rect(84, 18, 12, 202), 'timber'),
    thin(times(11, (i) => `M38 ${24 + i * 18}l6 -2v18`)),
    cut(rect(92, 122, 10, 22), 'timber'),
    cut(rect(96, 98, 134, 24), 'timber'),
    cut(rect(84, 194, 146, 26), 'timber'),
    edge('M96 94H230M96 190H230'),
    cut(rect(36, 220, 66, 18), 'timber'),
    cut(rect(32, 238, 74, 24), 'stone'),
    arrow(70, 212, 70, 34),
  ],
  notes: [
    { say: 'top plate, open to the attic', to: [90, 14] },
    { say: 'stud in one length', to: [90, 66] },
    { say: 'ribbon carries the upper floor', to: [100, 132] },
    { say: 'no block: fire and air rise', to: [72, 170] },
    { say: 'open to the cellar at the sill', to: [96, 228] },
  ],
};
