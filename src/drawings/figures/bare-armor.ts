import { cut, type Detail, edge, ink, rect, telling, thin, times } from '../detail.ts';

export const bareArmor: Detail = {
  id: 'bare-armor',
  title: 'Two armored cables, cut ends',
  desc: 'Above, an early armored cable: spiral steel with two cloth-covered conductors and nothing else. Below, a later one: the same steel with a thin bare bonding strip under the spiral.',
  tell: 'Look for the thin bare strip. Without it, the steel spiral is a long, poor path for fault current.',
  shows: ['materials/armored-cable', 'failures/bare-armor-ground-path', 'materials/bonded-armored-cable'],
  height: 232,
  marks: [
    cut(rect(4, 46, 128, 30)),
    edge(times(11, (i) => `M${8 + i * 12} 46q-5 15 4 30`)),
    cut('M132 53h44v6h-44zM132 63h44v6h-44z', 'dots'),
    ink('M176 55h42v3h-42zM176 65h42v3h-42z'),
    cut(rect(4, 158, 128, 30)),
    edge(times(11, (i) => `M${8 + i * 12} 158q-5 15 4 30`)),
    cut('M132 164h44v6h-44zM132 174h44v6h-44z', 'dots'),
    ink('M176 166h42v3h-42zM176 176h42v3h-42z'),
    telling('M10 184H132q14 0 14 12h50'),
    thin('M4 112H228'),
  ],
  notes: [
    { say: 'early: cloth on both wires, no strip', to: [158, 56] },
    { say: 'steel spiral is the only way back', to: [118, 76] },
    { say: 'later: the same steel outside', to: [104, 158] },
    { say: 'bare bonding strip, folded back', to: [186, 196] },
  ],
};
