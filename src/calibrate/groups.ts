/** Houses of one class question and one decade: how many there are, how many are of the class, and the mean chance that
 * was forecast. */
export interface Group {
  name: string;
  decade: number;
  n: number;
  k: number;
  chance: number;
}

/** Groups below this size say too little. */
export const LEAST_HOUSES = 8;

/** Groups by class and decade of building, from houses with forecasts; small ones left out. */
export function groupsOf(
  rows: readonly { built: number; name: string; chances: Record<string, number> }[],
  names: readonly string[],
): Group[] {
  const decades = [...new Set(rows.map((r) => decadeOf(r.built)))].sort((a, b) => a - b);
  return decades.flatMap((decade) => {
    const own = rows.filter((r) => decadeOf(r.built) === decade);
    if (own.length < LEAST_HOUSES) return [];
    return names.map((name) => ({
      name,
      decade,
      n: own.length,
      k: own.filter((r) => r.name === name).length,
      chance: own.reduce((sum, r) => sum + (r.chances[name] ?? 0), 0) / own.length,
    }));
  });
}

export function decadeOf(built: number): number {
  return Math.floor(built / 10) * 10;
}
