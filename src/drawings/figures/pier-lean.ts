import { arrow, cut, type Detail, edge, hidden, rect, telling, thin, times } from '../detail.ts';

export const pierLean: Detail = {
  id: 'pier-lean',
  title: 'A brick pier out of plumb',
  desc: 'A girder rests on a brick pier that leans. A plumb line hung from the top passes outside the lower third of the pier; its footing has rolled and the ground beside it is washed away.',
  tell: 'Compare the lean with a plumb line. Do not crawl past, touch or jack a leaning pier that carries load.',
  shows: ['failures/leaning-pier', 'materials/brick-piers'],
  height: 250,
  marks: [
    cut('M0 208H70L76 222H142L160 196Q190 190 230 206V248H0Z', 'earth'),
    cut(rect(10, 20, 206, 26), 'timber'),
    cut('M98 50H150L124 210H70Z', 'brick'),
    thin(times(12, (i) => `M${96 - i * 2.1} ${63 + i * 12.4}h${52}`)),
    cut('M56 210L136 216L134 230L54 224Z', 'concrete'),
    hidden('M98 50V208M150 50V208'),
    telling('M162 46V176'),
    cut('M156 176h12l-6 18z'),
    arrow(118, 130, 92, 132),
    edge('M88 46H160V50H88Z'),
  ],
  notes: [
    { say: 'load still comes down here', to: [124, 48] },
    { say: 'plumb line shows the lean', to: [162, 110] },
    { say: 'pier as it once stood', to: [150, 160] },
    { say: 'footing tipped, soil washed out', to: [134, 224] },
  ],
};
