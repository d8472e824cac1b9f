import { arrow, cut, type Detail, edge, hidden, telling, thin, times } from '../detail.ts';

export const bowedBlockWall: Detail = {
  id: 'bowed-block-wall',
  title: 'A block basement wall bowed by soil',
  desc: 'A section through a concrete-block wall. Wet soil presses from the left; the wall bends inward, most at about a third to half of its height from the top, where a level crack has opened.',
  tell: 'A level crack in the upper half, with the wall out of plumb there: measure the bow from a string, and date it. An engineer judges it.',
  shows: ['failures/bowed-block-wall', 'materials/block-wall'],
  height: 256,
  marks: [
    cut('M0 44H92Q128 120 94 236H0Z', 'earth'),
    cut('M92 30Q128 120 94 236H124Q160 120 122 30Z', 'concrete'),
    thin(
      times(10, (i) => {
        const y = 50 + i * 19;
        const t = (y - 30) / 206;
        const x = 92 + 66 * t * (1 - t) * 1.05 + 2 * t;
        return `M${Math.round(x)} ${y}h30`;
      }),
    ),
    telling('M112 112l10 3 8 -3 14 3'),
    hidden('M124 30V236'),
    cut('M80 10H232V30H80Z', 'timber'),
    cut('M84 236H232V252H84Z', 'concrete'),
    arrow(30, 130, 86, 130),
    arrow(44, 176, 88, 176),
    edge('M0 44H92'),
  ],
  notes: [
    { say: 'floor holds the top', to: [170, 22] },
    { say: 'level crack at the bow', to: [142, 114] },
    { say: 'string line: measure the bow', to: [124, 160] },
    { say: 'wet clay or frost presses', to: [70, 178] },
  ],
};
