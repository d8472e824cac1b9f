import { join } from 'node:path';
import type { Places, State } from '../../knowledge/schema/place.ts';
import { solvePositive } from '../calibrate/linear.ts';
import { numberOf, readTable, textOf } from '../csv/read-table.ts';

type Foundations = Omit<Places['foundations'], 'byDivision'>;
type Factors = Places['foundations']['byDivision'][string];

/** Answers of the energy survey of 2001 against kinds; raised houses (crawl space, piers, posts) are what the factors
 * are against. */
const ANSWERS = ['basement_only', 'slab_only', 'mixed(2+ types)', 'crawl_only'];
const MOVED = ['basement', 'slab', 'mixed'] as const;
const VINTAGES: Record<string, [number, number]> = {
  '<1940': [1900, 1939],
  '1940-59': [1940, 1959],
  '1960-79': [1960, 1979],
  '1980-2001': [1980, 1999],
};
/** Variance against a simple random sample; practice. */
const DESIGN = 1.5;
const ROUNDS = 30;

interface Row {
  vintage: [number, number];
  n: number;
  shares: number[];
}

/** A climate zone runs from one coast to the other: 4A holds the basements of Pennsylvania and the crawl spaces of
 * Carolina. Each census division therefore gets factors on the zone's shares, fitted to its own rows of the energy
 * survey of 2001; logarithms of the factors are normal around 0 with a spread estimated from all divisions at once. */
export function readFoundationDivisions(
  folder: string,
  foundations: Foundations,
  states: State[],
  stock: Places['stock'],
): { byDivision: Places['foundations']['byDivision']; spread: number } {
  const byDivision = new Map(
    Object.entries(Object.groupBy(states, (s) => s.division)).map(([division, own]) => [
      division,
      new Division(readRows(folder, division), own ?? [], foundations, stock),
    ]),
  );
  let spread = 0.5;
  for (let round = 0; round < ROUNDS; round++) {
    let sum = 0;
    for (const division of byDivision.values()) sum += division.improve(spread);
    spread = Math.sqrt(sum / (byDivision.size * MOVED.length));
  }
  return {
    byDivision: Object.fromEntries([...byDivision].map(([name, d]) => [name, d.factors()])),
    spread,
  };
}

class Division {
  readonly #rows: Row[];
  /** Shares of basement, slab, mixed and raised by row, before factors, one list a state, with the state's weight. */
  readonly #before: { weight: number; shares: number[] }[][];
  #x = new Float64Array(MOVED.length);

  constructor(rows: Row[], states: State[], foundations: Foundations, stock: Places['stock']) {
    this.#rows = rows;
    this.#before = rows.map(({ vintage }) =>
      states.map(({ code, zone }) => ({
        weight: (stock.units[code] ?? 0) * overlap(stock.vintages, stock.byState[code] ?? [], vintage),
        shares: sharesOf(foundations, zone, vintage),
      })),
    );
  }

  factors(): Factors {
    const at = (i: number): number => Math.round(Math.exp(this.#x[i] ?? 0) * 1000) / 1000;
    return { basement: at(0), slab: at(1), mixed: at(2) };
  }

  /** One step of Fisher scoring; the sum of squares of the logarithms plus their variances. */
  improve(spread: number): number {
    const slope = this.#x.map((v) => -v / spread ** 2);
    const curvature = MOVED.map((_, i) => MOVED.map((_, j) => (i === j ? 1 / spread ** 2 : 0)));
    this.#rows.forEach((row, r) => {
      const p = this.#predicted(r, this.#x);
      const slopes = MOVED.map((_, i) => {
        const moved = Float64Array.from(this.#x);
        moved[i] = (moved[i] ?? 0) + 1e-4;
        return this.#predicted(r, moved).map((v, k) => (v - (p[k] ?? 0)) / 1e-4);
      });
      row.shares.forEach((share, k) => {
        const pk = Math.max(p[k] ?? 0, 1e-4);
        slopes.forEach((si, i) => {
          slope[i] = (slope[i] ?? 0) + (row.n * share * (si[k] ?? 0)) / pk;
          slopes.forEach((sj, j) => {
            const line = curvature[i];
            if (line !== undefined) line[j] = (line[j] ?? 0) + (row.n * (si[k] ?? 0) * (sj[k] ?? 0)) / pk;
          });
        });
      });
    });
    const { x, variance } = solvePositive(
      curvature.map((line) => Float64Array.from(line)),
      slope,
    );
    this.#x = this.#x.map((v, i) => v + Math.max(-1, Math.min(1, x[i] ?? 0)));
    return this.#x.reduce((sum, v, i) => sum + v * v + (variance[i] ?? 0), 0);
  }

  #predicted(r: number, x: Float64Array): number[] {
    const states = this.#before[r] ?? [];
    const all = states.reduce((sum, s) => sum + s.weight, 0);
    const mean = [0, 0, 0, 0];
    for (const { weight, shares } of states) {
      const moved = shares.map((p, k) => p * (k < MOVED.length ? Math.exp(x[k] ?? 0) : 1));
      const whole = moved.reduce((sum, p) => sum + p, 0);
      moved.forEach((p, k) => {
        mean[k] = (mean[k] ?? 0) + ((weight / all) * p) / whole;
      });
    }
    return mean;
  }
}

function readRows(folder: string, division: string): Row[] {
  const rows = readTable(join(folder, 'recs2001-foundation-sf.csv')).filter(
    (row) => textOf(row, 'division') === division,
  );
  return Object.entries(VINTAGES).map(([name, vintage]) => {
    const own = rows.filter((row) => textOf(row, 'year_built') === name);
    const shares = ANSWERS.map((answer) => {
      const row = own.find((r) => textOf(r, 'foundation_answer') === answer);
      if (row === undefined)
        throw new Error(`recs2001-foundation-sf.csv has no ${answer} for ${division}, ${name}`);
      return numberOf(row, 'p_weighted');
    });
    const known = shares.reduce((sum, p) => sum + p, 0);
    const n = own[0] === undefined ? 0 : numberOf(own[0], 'n');
    return { vintage, n: n / DESIGN, shares: shares.map((p) => p / known) };
  });
}

/** Basement, slab, mixed and raised in a zone, the mean over the vintages of the table that the span meets. */
function sharesOf({ kinds, vintages, byZone }: Foundations, zone: string, span: [number, number]): number[] {
  const table = byZone[zone] ?? byZone.ALL ?? [];
  const met = vintages.flatMap(([from, to], v) => (from <= span[1] && to >= span[0] ? [v] : []));
  const share = (wanted: (kind: string) => boolean): number =>
    met.reduce(
      (sum, v) =>
        sum + kinds.reduce((s, kind, k) => s + (wanted(kind) ? (table[v]?.[k] ?? 0) : 0), 0) / met.length,
      0,
    );
  return [
    share((kind) => kind.startsWith('basement')),
    share((kind) => kind === 'slab'),
    share((kind) => kind === 'mixed'),
    share((kind) => ['piers', 'posts', 'crawl'].includes(kind)),
  ];
}

function overlap(vintages: [number, number][], shares: number[], [from, to]: [number, number]): number {
  return vintages.reduce((sum, v, i) => sum + (v[0] <= to && v[1] >= from ? (shares[i] ?? 0) : 0), 0);
}
