import { arrow, cut, type Detail, edge, rect, telling, thin } from '../detail.ts';

export const houseTrap: Detail = {
  id: 'house-trap',
  title: 'A house trap at the foundation wall',
  desc: 'Where the drain leaves the cellar it dips in a large U trap with two cleanout caps standing side by side, and a vent to the outside on the house side.',
  tell: 'Two caps side by side near the front wall, and a small grille outdoors: a trap for the whole house, where solids gather.',
  shows: ['failures/house-trap'],
  height: 230,
  marks: [
    cut(rect(186, 4, 30, 220), 'stone'),
    cut(rect(0, 196, 186, 12), 'concrete'),
    edge('M0 96H70V84H62V74H94V84H86V150Q88 176 108 176T130 150V84H122V74H154V84H146V96H232'),
    edge('M0 120H62V150Q64 200 108 200T154 150V120H232'),
    telling('M60 72H96M120 72H156'),
    cut('M66 62h24v10h-24zM126 62h24v10h-24z', 'metal'),
    edge('M20 96V30H232M32 96V42H232'),
    thin('M66 150q10 -4 20 0M130 150q10 -4 22 0M220 26v22M226 26v22'),
    arrow(8, 108, 50, 108),
    arrow(164, 108, 184, 108),
  ],
  notes: [
    { say: 'fresh-air pipe to a grille outdoors', to: [222, 36] },
    { say: 'two caps, side by side', to: [140, 66] },
    { say: 'to the street', to: [184, 108] },
    { say: 'water and solids stay in the dip', to: [110, 188] },
  ],
};
