import { cut, type Detail, edge, rect, telling, thin, times } from '../detail.ts';

export const unlinedFlue: Detail = {
  id: 'unlined-flue',
  title: 'Chimney flues, looked at from above',
  desc: 'Three flues cut across. Unlined: bare brick with washed-out joints. Clay-lined: a clay tile inside the brick. Metal-lined: a round metal liner inside the old flue.',
  tell: 'Look at the top with field glasses, or up from the cleanout with a mirror: bare brick, the edge of a tile, or metal.',
  shows: [
    'failures/unlined-flue-in-use',
    'materials/unlined-chimney',
    'materials/clay-lined-chimney',
    'materials/metal-lined-chimney',
  ],
  height: 262,
  marks: [
    cut(`${rect(4, 10, 100, 100)}M28 34v52h52v-52z`, 'brick'),
    thin('M4 34h100M4 86h100M28 10v100M80 10v100'),
    telling('M28 46l-8 2M28 66l-10 -1M80 56l9 2M44 34l1 -8M62 86l-1 9'),
    cut(`${rect(124, 10, 100, 100)}M146 32v56h56v-56z`, 'brick'),
    cut('M146 32H202V88H146ZM153 39V81H195V39Z'),
    cut(`${rect(64, 146, 100, 100)}M88 170v52h52v-52z`, 'brick'),
    edge('M92 196a22 22 0 1 0 44 0a22 22 0 1 0 -44 0z'),
    thin('M95 196a19 19 0 1 0 38 0a19 19 0 1 0 -38 0z'),
    thin(times(3, (i) => `M64 ${170 + i * 26}h24M140 ${170 + i * 26}h24`)),
  ],
  notes: [
    { say: 'clay-lined: tile edge shows', to: [199, 46] },
    { say: 'unlined: joints eaten by flue gas', to: [88, 62] },
    { say: 'metal-lined: thin round edge', to: [135, 190] },
  ],
};
