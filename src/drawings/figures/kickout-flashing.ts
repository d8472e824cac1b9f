import { arrow, cut, type Detail, edge, rect, telling, thin, times } from '../detail.ts';

export const kickoutFlashing: Detail = {
  id: 'kickout-flashing',
  title: 'Where the lower end of a roof dies into a wall',
  desc: 'Left, without a kick-out: water from the roof edge runs down behind the siding and a stain spreads below. Right, a bent kick-out turns the water away from the wall into the gutter.',
  tell: 'Look below each place where a gutter ends against a wall: staining, soft siding, or a patch of newer boards.',
  shows: ['failures/missing-kickout'],
  height: 240,
  marks: [
    thin(times(13, (i) => `M4 ${12 + i * 17}H108M124 ${12 + i * 17}H228`)),
    cut('M4 40L58 80V92L4 52Z', 'timber'),
    cut('M124 40L178 80V92L124 52Z', 'timber'),
    edge('M58 74h-4v20h-34M58 92v0M178 92v6h-40'),
    cut('M36 92h24v14q0 8 -8 8h-16z'),
    cut('M146 96h36v14q0 8 -8 8h-28z'),
    telling('M166 70L182 82L196 70V92L180 94'),
    arrow(62, 84, 74, 112),
    arrow(74, 122, 76, 160),
    cut('M60 118Q84 120 96 156Q104 200 92 226H62Q52 170 60 118Z', 'dots'),
    arrow(150, 40, 172, 62),
    edge(rect(4, 2, 104, 232)),
    edge(rect(124, 2, 104, 232)),
  ],
  notes: [
    { say: 'kick-out turns water off the wall', to: [194, 78] },
    { say: 'gutter catches it', to: [170, 108] },
    { say: 'left: none, so it runs behind the siding', to: [76, 146] },
    { say: 'soft, stained sheathing below', to: [84, 206] },
  ],
};
