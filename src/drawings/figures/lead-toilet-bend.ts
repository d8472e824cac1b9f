import { cut, type Detail, edge, rect, telling, thin, times } from '../detail.ts';

export const leadToiletBend: Detail = {
  id: 'lead-toilet-bend',
  title: 'A lead bend under a toilet',
  desc: 'A section through a bathroom floor. A soft lead bend runs from the toilet flange to an iron stack. It has thinned and split at the outside of the turn; the subfloor around it is wet.',
  tell: 'From below: a dull, dented elbow with a smooth wiped joint, white crust or a stain. From above: a toilet that rocks.',
  shows: ['failures/lead-toilet-bend-split', 'failures/rotted-floor-at-toilet'],
  height: 236,
  marks: [
    edge('M52 4Q34 4 40 22Q46 44 58 52M112 4Q134 6 124 26Q118 44 110 52M58 52H110'),
    cut(rect(0, 56, 52, 12), 'timber'),
    cut(rect(118, 56, 114, 12), 'timber'),
    cut('M46 52H124V58H104V56H64V58H46Z', 'metal'),
    edge('M62 58V96Q62 146 112 146H170M106 58V88Q108 104 124 104H170'),
    telling('M72 122q6 10 14 14'),
    thin('M66 140v20M74 148v26M84 152v16'),
    cut('M166 98H182V152H166Z', 'dots'),
    cut(rect(182, 64, 14, 168), 'metal'),
    cut(rect(218, 64, 14, 168), 'metal'),
    edge('M182 104v42'),
    cut('M16 68Q40 84 52 68Z', 'dots'),
    thin(times(4, (i) => `M${22 + i * 8} 58v8`)),
  ],
  notes: [
    { say: 'flange: rocking breaks the seal', to: [114, 55] },
    { say: 'wiped joint to the iron', to: [174, 100] },
    { say: 'split on the outside of the turn', to: [78, 130] },
    { say: 'drips on the ceiling below', to: [76, 166] },
  ],
};
