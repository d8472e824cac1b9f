import { cut, type Detail, edge, hidden, rect, telling, thin, times } from '../detail.ts';

export const halfRemovedChimney: Detail = {
  id: 'half-removed-chimney',
  title: 'A chimney removed below and left above',
  desc: 'A section through two storeys and the roof. The chimney stands in the attic and above the roof; in the room below it is gone, and the rest bears on ceiling joists and a few planks.',
  tell: 'Follow every chimney from roof to cellar. If it is missing on one floor, ask what carries the rest, and keep people from under it.',
  shows: ['failures/half-removed-chimney'],
  height: 264,
  marks: [
    edge('M0 92L110 34M150 36L232 84'),
    cut(rect(110, 8, 40, 104), 'brick'),
    edge(rect(104, 2, 52, 8)),
    thin(times(9, (i) => `M110 ${18 + i * 11}h40`)),
    telling('M92 116H170M98 112h66'),
    cut(rect(0, 120, 232, 18), 'timber'),
    edge('M0 138H232'),
    hidden('M110 138V236M150 138V236'),
    cut(rect(0, 222, 232, 8), 'timber'),
    cut(rect(110, 230, 40, 34), 'brick'),
    thin('M14 158h60v50h-60zM44 158v50'),
  ],
  notes: [
    { say: 'still looks whole from the street', to: [144, 20] },
    { say: 'planks across ceiling joists', to: [164, 116] },
    { say: 'taken out of this room', to: [150, 184] },
    { say: 'base left in the cellar', to: [146, 250] },
  ],
};
