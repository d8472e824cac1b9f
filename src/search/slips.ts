/** Letters that may be wrong, left out, too many or swapped in a word of this length. */
export function slipsForgiven(length: number): number {
  if (length < 4) return 0;
  return length < 8 ? 1 : 2;
}

/** Slips between two words: a letter wrong, left out, too many, or two neighbours swapped. Infinity above `most`. */
export function slipsBetween(a: string, b: string, most: number): number {
  if (Math.abs(a.length - b.length) > most) return Number.POSITIVE_INFINITY;
  let before: number[] = [];
  let above = Array.from({ length: b.length + 1 }, (_, i) => i);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    let least = i;
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1];
      let slips = Math.min(at(above, j) + 1, at(row, j - 1) + 1, at(above, j - 1) + (same ? 0 : 1));
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        slips = Math.min(slips, at(before, j - 2) + 1);
      row.push(slips);
      least = Math.min(least, slips);
    }
    if (least > most) return Number.POSITIVE_INFINITY;
    before = above;
    above = row;
  }
  const slips = at(above, b.length);
  return slips > most ? Number.POSITIVE_INFINITY : slips;
}

const at = (row: readonly number[], i: number): number => row[i] ?? Number.POSITIVE_INFINITY;
