import type { AhsCell, Item } from './ahs-cells.ts';

/** Cells are joined to vintages of twenty years, as the energy surveys have them. */
export const VINTAGES: { name: string; from: number; to: number }[] = [
  { name: 'before 1940', from: 0, to: 1939 },
  { name: '1940-59', from: 1940, to: 1959 },
  { name: '1960-79', from: 1960, to: 1979 },
  { name: '1980-99', from: 1980, to: 1999 },
  { name: '2000-13', from: 2000, to: 2013 },
];

/** Fewest houses of a cell that is scored. */
const FEWEST = 50;
/** Neighbours are interviewed together and are alike: variance of a share against that of a simple random sample of
 * the same weights. The public sample names no clusters, so this cannot be measured; practice. */
export const CLUSTERING = 1.3;
/** Normal deviate of a 95% interval. */
const Z95 = 1.96;

/** What houses of a vintage in a place were found to have, against ours. */
export interface ScoredCell<Of extends string = Item> {
  of: Of;
  /** Region or climate zone. */
  place: string;
  vintage: string;
  n: number;
  observed: number;
  ours: number;
  low: number;
  high: number;
  inside: boolean;
  /** Inside if there were no transfer variance: sampling alone. */
  insideSampling: boolean;
}

/** A cell with the interval of the share observed, given ours, in a sample of `effective` houses. */
export function scoredCell<Of extends string>(
  cell: Pick<ScoredCell<Of>, 'of' | 'place' | 'vintage' | 'n' | 'observed' | 'ours'>,
  effective: number,
  spread: number,
): ScoredCell<Of> {
  const { observed, ours } = cell;
  const { low, high } = interval(ours, effective, spread);
  const plain = interval(ours, effective, 0);
  return {
    ...cell,
    low,
    high,
    inside: observed >= low && observed <= high,
    insideSampling: observed >= plain.low && observed <= plain.high,
  };
}

/** Scores forecasts on the cells. `spread` is the standard deviation of the log-odds from one survey and place to
 * another (transfer), by item; the interval is that of the observed share given our forecast. */
export function scoreCells(
  cells: AhsCell[],
  forecast: (cell: AhsCell) => number,
  spread: (item: Item) => number,
): ScoredCell[] {
  const names = [...new Set(cells.map((c) => `${c.item}|${c.region}`))];
  return names.flatMap((name) =>
    VINTAGES.flatMap((vintage): ScoredCell[] => {
      const own = cells.filter(
        (c) => `${c.item}|${c.region}` === name && c.from >= vintage.from && c.to <= vintage.to,
      );
      const first = own[0];
      const n = own.reduce((sum, c) => sum + c.n, 0);
      if (first === undefined || n < FEWEST) return [];
      const weight = own.reduce((sum, c) => sum + c.weight, 0);
      const mean = (value: (c: AhsCell) => number): number =>
        own.reduce((sum, c) => sum + c.weight * value(c), 0) / weight;
      const effective = weight ** 2 / own.reduce((sum, c) => sum + c.squares, 0) / CLUSTERING;
      const { item, region } = first;
      const [observed, ours] = [mean((c) => c.share), mean(forecast)];
      const cell = { of: item, place: region, vintage: vintage.name, n, observed, ours };
      return [scoredCell(cell, effective, spread(item))];
    }),
  );
}

/** 95% interval of the share that a sample of `effective` houses would show: the sampling variance p (1 - p) / n and
 * the transfer variance, which is one of log-odds, add on the scale of log-odds. */
export function interval(p: number, effective: number, spread: number): { low: number; high: number } {
  const held = Math.min(1 - 1e-4, Math.max(1e-4, p));
  const middle = Math.log(held / (1 - held));
  // Half a house is added, so that a share near 0 or 1 keeps a finite variance of its log-odds.
  const sampling = 1 / (effective * held * (1 - held) + 0.5);
  const half = Z95 * Math.sqrt(sampling + spread ** 2);
  const at = (x: number): number => 1 / (1 + Math.exp(-x));
  const low = at(middle - half);
  // A sample of n houses can show no houses at all where fewer than three are expected.
  return { low: effective * held < 3 ? 0 : low, high: effective * (1 - held) < 3 ? 1 : at(middle + half) };
}
