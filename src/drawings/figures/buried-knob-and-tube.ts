import { arrow, cut, type Detail, edge, ink, rect, telling, thin } from '../detail.ts';

export const buriedKnobAndTube: Detail = {
  id: 'buried-knob-and-tube',
  title: 'Knob-and-tube wires under insulation',
  desc: 'A section of an attic floor. On the left the wires stand in free air on their knobs and lose their heat. On the right blown insulation covers them and the heat stays.',
  tell: 'Wires that go down into insulation and do not come up. Do not dig for them: an electrician says whether they still carry current.',
  shows: ['failures/insulation-over-knob-and-tube'],
  height: 204,
  marks: [
    cut(rect(8, 70, 20, 90), 'timber'),
    cut(rect(112, 70, 20, 90), 'timber'),
    cut(rect(208, 70, 20, 90), 'timber'),
    cut(rect(0, 160, 232, 10), 'dots'),
    cut('M132 60Q150 44 170 54T208 48Q226 52 232 60V160H228V70H208V160H132Z', 'wave'),
    ...[40, 96, 144, 192].map((x) => cut(rect(x - 6, 104, 12, 16))),
    ink('M34 109h12v5h-12zM90 109h12v5h-12zM138 109h12v5h-12zM186 109h12v5h-12z'),
    arrow(40, 96, 40, 56),
    arrow(96, 96, 96, 56),
    telling('M156 112q8 -6 8 0t8 0M130 96q6 8 0 16'),
    edge('M0 174H232'),
    thin('M28 112h6M102 112h10M132 112h6M198 112h10'),
  ],
  notes: [
    { say: 'blown insulation', to: [196, 62] },
    { say: 'left: heat goes into the air', to: [96, 72] },
    { say: 'right: heat stays in the wire', to: [166, 112] },
    { say: 'ceiling below', to: [196, 166] },
  ],
};
