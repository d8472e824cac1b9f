import { cut, type Detail, over, telling, thin, times } from '../detail.ts';

export const skipSheathing: Detail = {
  id: 'skip-sheathing',
  title: 'Spaced roof boards, seen in the attic',
  desc: 'Under the first roof the boards were nailed with gaps, so that wood shingles could dry. Newer shingles need a solid deck: panels were laid over the boards, or were left out.',
  tell: 'From the attic: gaps between boards. If you see the back of shingles or felt in the gaps, there is no deck under them.',
  shows: ['failures/shingles-over-spaced-boards', 'materials/wood-shingle-roof'],
  height: 240,
  marks: [
    cut('M0 190L232 62V84L0 212Z', 'timber'),
    ...[0, 1, 2, 3, 4].map((i) => {
      const x = 6 + i * 46;
      const y = 186 - i * 25.4;
      return cut(`M${x} ${y - 9}l24 -13.2v10l-24 13.2z`, 'timber');
    }),
    over(times(4, (i) => `M${4 + i * 30} ${177 - i * 16.6}l58 -37l3 5z`)),
    cut('M136 105L232 52V44L136 97Z'),
    over(times(3, (i) => `M${136 + i * 28} ${96 - i * 15.4}l38 -25l2 5z`)),
    telling('M31 163l19 -10M77 138l19 -10'),
    thin('M0 230H232'),
  ],
  notes: [
    { say: 'new panel deck over the boards', to: [206, 58] },
    { say: 'rafter', to: [226, 74] },
    { say: 'board, gap, board', to: [114, 128] },
    { say: 'no deck: shingles span the gap', to: [88, 132] },
  ],
};
