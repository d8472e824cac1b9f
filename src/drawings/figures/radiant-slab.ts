import { arrow, cut, type Detail, disc, edge, telling, thin, times } from '../detail.ts';

export const radiantSlab: Detail = {
  id: 'radiant-slab',
  title: 'Pipes in a heated slab',
  desc: 'A section through a concrete slab on the ground. Copper or steel pipes run through the concrete. Where the slab has cracked over the soil, a pipe has opened and warm water goes into the ground.',
  tell: 'Ask before anything is drilled. A boiler that keeps asking for water, or one warm damp stripe, is the sign; old loops are often shut off, not removed.',
  shows: ['materials/radiant-slab', 'failures/radiant-slab-leak'],
  height: 200,
  marks: [
    cut('M0 120H232V196H0Z', 'earth'),
    cut('M0 64H232V116H0Z', 'concrete'),
    edge('M0 58H232M0 64H232'),
    ...[0, 1, 2, 3, 4, 5].map((i) => cut(disc(22 + i * 38, 92, 9))),
    thin(times(6, (i) => `M${18 + i * 38} 92h8M${22 + i * 38} 88v8`)),
    telling('M134 64L138 80L132 92L140 116M136 118q-12 20 -4 40M144 118q10 16 6 34'),
    ...[0, 2, 4].map((i) => arrow(22 + i * 38, 48, 22 + i * 38, 20)),
  ],
  notes: [
    { say: 'heat rises through the floor', to: [174, 34] },
    { say: 'crack crosses the pipe', to: [137, 70] },
    { say: 'pipes cast in the concrete', to: [212, 96] },
    { say: 'water goes into the ground unseen', to: [150, 146] },
  ],
};
