import { cut, type Detail, edge, hidden, rect, telling, thin, times } from '../detail.ts';

export const shimsOnLeaningPier: Detail = {
  id: 'shims-on-leaning-pier',
  title: 'Shims on a sound pier, and on a leaning one',
  desc: 'Left, a plumb pier with a gap under the girder closed by a pair of tight shims over its full width. Right, a leaning pier with a stack of loose shims at one corner and a screw jack beside it.',
  tell: 'Shims belong over a plumb, sound pier. On a leaning pier they hide the movement; a jack beside it means: keep out.',
  shows: ['failures/shims-on-leaning-pier', 'failures/settled-pier'],
  height: 240,
  marks: [
    cut(rect(2, 22, 228, 24), 'timber'),
    cut(rect(24, 56, 46, 142), 'brick'),
    thin(times(11, (i) => `M24 ${68 + i * 12}h46`)),
    cut('M20 46H74V50L20 56Z'),
    edge('M20 50L74 46'),
    cut(rect(12, 198, 70, 14), 'concrete'),
    cut('M128 68H170L196 200H150Z', 'brick'),
    hidden('M128 68V200M170 68V200'),
    telling('M146 46h26v5h-24v5h26v5h-24v6h24v-21'),
    cut('M200 198h22v-10h-6v-116h-10v116h-6z'),
    thin(times(12, (i) => `M206 ${80 + i * 8}l10 4`)),
    edge('M198 46h26v8h-8v18h-10v-18h-8z'),
    cut('M0 212H232V236H0Z', 'earth'),
    cut('M140 200L206 206L204 218L138 212Z', 'concrete'),
  ],
  notes: [
    { say: 'tight pair over the full width', to: [56, 51] },
    { say: 'loose stack at one corner', to: [168, 58] },
    { say: 'screw jack left in place', to: [216, 110] },
    { say: 'pier leans under the shims', to: [180, 150] },
  ],
};
