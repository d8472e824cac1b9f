import { arrow, cut, type Detail, edge, hidden, rect, telling, thin, times } from '../detail.ts';

export const orphanedWaterHeater: Detail = {
  id: 'orphaned-water-heater',
  title: 'A water heater alone on a flue made for two',
  desc: 'The old furnace is gone and its opening in the chimney is patched. A small gas water heater still vents into the same wide brick flue; its gases cool, stall and spill back.',
  tell: 'One small appliance on a wide flue, near a newer furnace with plastic pipes. Look for rust, melted fittings, condensation; carry a CO meter.',
  shows: ['failures/orphaned-water-heater'],
  height: 262,
  marks: [
    cut(`${rect(148, 4, 16, 240)}`, 'brick'),
    cut(`${rect(212, 4, 16, 240)}`, 'brick'),
    edge('M164 4V244M212 4V244'),
    cut(rect(34, 148, 52, 96)),
    thin('M34 160H86M34 236H86M52 236v8h16v-8'),
    edge('M44 148l8 -14h16l8 14M56 128V96H148M68 128V108H148'),
    hidden(rect(96, 170, 44, 74)),
    cut('M148 176h16v26h-16z', 'concrete'),
    arrow(128, 102, 150, 102),
    arrow(188, 120, 188, 66),
    telling('M72 132q22 2 24 -12t14 -6M44 134q-22 0 -26 -14'),
    thin(times(4, (i) => `M${168 + i * 10} ${30 + i * 3}q5 -8 10 0`)),
    edge('M0 244H232'),
  ],
  notes: [
    { say: 'wide, cold flue: gases cool and stall', to: [188, 40] },
    { say: 'long, flat connector', to: [112, 98] },
    { say: 'spills here, with rust on top', to: [96, 124] },
    { say: 'patch where the furnace vented', to: [158, 190] },
    { say: 'furnace that is gone', to: [136, 226] },
  ],
};
