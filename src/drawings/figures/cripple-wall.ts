import { arrow, cut, type Detail, edge, rect, telling, thin, times } from '../detail.ts';

export const crippleWall: Detail = {
  id: 'cripple-wall',
  title: 'A cripple wall under a first floor',
  desc: 'Short studs stand between the foundation and the first floor. On the left they carry only siding. On the right panels are nailed over them and bolts hold the sill to the foundation.',
  tell: 'Look from the crawl space: bare studs and no bolt heads mean that a quake could rack the house off its foundation.',
  shows: ['failures/unbolted-sill'],
  height: 226,
  marks: [
    cut(rect(0, 18, 232, 26), 'timber'),
    edge('M0 14H232'),
    cut(rect(0, 44, 232, 10), 'timber'),
    cut(rect(0, 146, 232, 12), 'timber'),
    ...[0, 1, 2, 3].map((i) => cut(rect(6 + i * 30, 54, 11, 92), 'timber')),
    cut(rect(128, 54, 104, 92)),
    thin(times(8, (i) => `M${136 + i * 12} 60v2M${136 + i * 12} 138v2`)),
    thin(times(6, (i) => `M132 ${66 + i * 13}h2M226 ${66 + i * 13}h2M178 ${66 + i * 13}h2`)),
    thin('M180 54V146'),
    cut(rect(0, 158, 232, 62), 'concrete'),
    telling('M156 140V196h8M208 140V196h8M148 140h16M200 140h16'),
    arrow(110, 30, 62, 30),
    thin('M18 54L44 146M48 54L74 146'),
  ],
  notes: [
    { say: 'floor moves sideways', to: [66, 30] },
    { say: 'right: panels nailed at every edge', to: [214, 84] },
    { say: 'left: studs and siding alone', to: [101, 112] },
    { say: 'bolts through the sill', to: [208, 166] },
  ],
};
