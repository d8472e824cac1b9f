import { cut, type Detail, ink, rect, telling, thin, times } from '../detail.ts';

export const porcelainKnobs: Detail = {
  id: 'porcelain-knobs',
  title: 'Knob-and-tube wiring at floor joists',
  desc: 'Two single wires run apart. They pass through joists in porcelain tubes, stand off the wood on porcelain knobs, and are joined by a soldered and taped splice in open air.',
  tell: 'Two wires, well apart, with air around them. Porcelain alone does not say that current still flows: trace a run, or have it tested.',
  shows: ['materials/knob-and-tube'],
  height: 220,
  marks: [
    cut(rect(28, 24, 26, 130), 'timber'),
    cut(rect(150, 24, 26, 130), 'timber'),
    thin('M4 20H228M4 24H228'),
    ink('M2 61L230 57V60L2 64ZM2 109L230 105V108L2 112Z'),
    cut('M22 55L60 54V66L22 68ZM22 103L60 102V114L22 116Z'),
    cut('M144 52L182 51V64L144 66ZM144 100L182 99V112L144 114Z'),
    cut(`${rect(92, 152, 20, 12)}${rect(96, 164, 12, 5)}${rect(92, 169, 20, 12)}`),
    thin(`M84 182H120M102 182V202${times(4, (i) => `M99 ${186 + i * 4}L105 ${184 + i * 4}`)}`),
    ink(rect(60, 164, 84, 4)),
    telling('M90 59q4 -6 8 0t8 0t8 -1'),
  ],
  notes: [
    { say: 'wires apart, not in one cable', to: [75, 61] },
    { say: 'soldered, taped splice in open air', to: [112, 58] },
    { say: 'porcelain tube where it crosses a joist', to: [180, 106] },
    { say: 'knob holds the wire off the wood', to: [110, 158] },
  ],
};
