import { arrow, cut, type Detail, edge, rect, telling, thin } from '../detail.ts';

export const gravityFurnace: Detail = {
  id: 'gravity-furnace',
  title: 'A gravity furnace in a cellar',
  desc: 'A wide round furnace stands in the middle of the cellar. Large sloping ducts rise from its top like arms to floor grilles near inside walls. Cold air returns through a floor grille. There is no fan.',
  tell: 'Many big arms and no blower. The white wrap on the arms is presumed to hold asbestos until a laboratory says otherwise: do not brush against it.',
  shows: ['materials/gravity-furnace', 'materials/gravity-ducts', 'materials/suspect-duct-covering'],
  height: 236,
  marks: [
    cut(rect(0, 20, 232, 14), 'timber'),
    cut(rect(28, 18, 44, 8)),
    cut(rect(166, 18, 44, 8)),
    cut('M84 110Q116 84 148 110V220H84Z', 'metal'),
    edge('M84 128L36 34H64L98 104M148 128L200 34H172L134 104'),
    telling('M60 70l22 -12M70 90l20 -12M172 58l20 12M162 78l20 12'),
    edge('M84 190H20V34H0M84 214H0'),
    cut(rect(104, 150, 24, 22)),
    thin('M104 186h24v20h-24z'),
    edge('M128 94V60H232'),
    arrow(50, 60, 46, 42),
    arrow(186, 62, 190, 42),
    arrow(12, 60, 12, 180),
    edge('M0 220H232'),
  ],
  notes: [
    { say: 'grilles near inside walls', to: [206, 22] },
    { say: 'warm air rises by itself', to: [188, 50] },
    { say: 'wrap at the joints: leave it alone', to: [176, 86] },
    { say: 'converted burner in the old door', to: [126, 162] },
    { say: 'cold air returns low', to: [78, 206] },
  ],
};
