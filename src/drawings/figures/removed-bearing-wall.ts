import { arrow, cut, type Detail, edge, hidden, rect, telling, thin } from '../detail.ts';

export const removedBearingWall: Detail = {
  id: 'removed-bearing-wall',
  title: 'A wall taken out from under joists that met on it',
  desc: 'A section through two storeys. Joists lapped over a middle wall that stood above a cellar girder. The wall on the first floor is gone; the ceiling sags there and the load has no way down.',
  tell: 'Find the girder in the cellar and look straight up: if no wall or beam stands over it, and the ceiling dips there, ask for papers; an engineer judges it.',
  shows: ['failures/removed-bearing-wall', 'failures/sagging-girder'],
  height: 250,
  marks: [
    cut('M0 70H126L124 96L0 84Z', 'timber'),
    cut('M106 78L108 98L232 84V70Z', 'timber'),
    telling('M0 100Q116 124 232 100'),
    cut(rect(108, 4, 16, 66), 'timber'),
    hidden('M108 104V176M124 104V176'),
    cut(rect(0, 176, 232, 16), 'timber'),
    cut(rect(98, 192, 36, 22), 'timber'),
    cut(rect(109, 214, 14, 36), 'metal'),
    arrow(116, 20, 116, 64),
    edge('M0 66H108M124 66H232M0 172H232'),
    thin('M116 78v16'),
  ],
  notes: [
    { say: 'wall above still loads it', to: [120, 30] },
    { say: 'joists lap here', to: [124, 84] },
    { say: 'ceiling dips', to: [160, 112] },
    { say: 'wall that is gone', to: [124, 146] },
    { say: 'girder below tells where it stood', to: [128, 204] },
  ],
};
