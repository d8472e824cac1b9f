import { join } from 'node:path';
import type { Places, State } from '../../knowledge/schema/place.ts';
import { solvePositive } from '../calibrate/linear.ts';
import { numberOf, readTable, textOf } from '../csv/read-table.ts';

type Foundations = Omit<Places['foundations'], 'byDivision' | 'factorYears'>;
type Fitted = Pick<Places['foundations'], 'byDivision' | 'factorYears'>;

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
/** Build years that factors are given for. */
const EARLY = 1930;
const LATE = 2000;
/** Part of the answers that is at random. */
const STRAY = 0.01;

/** Standard deviations over divisions of the logarithms of factors half-way between the years, and of how much they change from
 * one to the other. */
export interface DivisionSpread {
  level: number;
  tilt: number;
}
const START: DivisionSpread = { level: 0.5, tilt: 0.4 };
/** The spread of tilts is not let fall below this; a spread of 0 would never grow again. */
const LEAST_TILT = 0.02;

interface Row {
  vintage: [number, number];
  n: number;
  shares: number[];
}

/** A climate zone runs from one coast to the other: 4A holds the basements of Pennsylvania and the crawl spaces of
 * Carolina. Each census division therefore gets factors on the zone's shares, and how much they change over build years,
 * fitted to its own rows of the energy survey of 2001; logarithms are normal around 0 with spreads estimated from
 * all divisions at once. */
export function readFoundationDivisions(
  folder: string,
  foundations: Foundations,
  states: State[],
  stock: Places['stock'],
): Fitted & { spread: DivisionSpread } {
  const { divisions, spread } = fitDivisions(folder, foundations, states, stock, true, null);
  return {
    byDivision: Object.fromEntries([...divisions].map(([name, d]) => [name, d.factors()])),
    factorYears: [EARLY, LATE],
    spread,
  };
}

/** Divergence of the survey's shares from ours in nats, cell by cell (a vintage of a division), each vintage forecast by
 * factors fitted to the other three. */
export function foldsOfDivisions(
  folder: string,
  foundations: Foundations,
  states: State[],
  stock: Places['stock'],
  tilted: boolean,
): { cell: string; divergence: number; n: number }[] {
  return Object.keys(VINTAGES).flatMap((vintage, left) => {
    const { divisions } = fitDivisions(folder, foundations, states, stock, tilted, left);
    return [...divisions].map(([name, d]) => ({ cell: `${name} ${vintage}`, ...d.divergence(left) }));
  });
}

function fitDivisions(
  folder: string,
  foundations: Foundations,
  states: State[],
  stock: Places['stock'],
  tilted: boolean,
  left: number | null,
): { divisions: Map<string, Division>; spread: DivisionSpread } {
  const divisions = new Map(
    Object.entries(Object.groupBy(states, (s) => s.division)).map(([division, own]) => [
      division,
      new Division(readRows(folder, division), own ?? [], foundations, stock, tilted, left),
    ]),
  );
  let spread = START;
  for (let round = 0; round < ROUNDS; round++) {
    const squares = [...divisions.values()].map((d) => d.improve(spread));
    const root = (of: (s: DivisionSpread) => number): number =>
      Math.sqrt(squares.reduce((sum, s) => sum + of(s), 0) / (divisions.size * MOVED.length));
    spread = {
      level: root((s) => s.level),
      tilt: tilted
        ? Math.max(
            LEAST_TILT,
            root((s) => s.tilt),
          )
        : START.tilt,
    };
  }
  return { divisions, spread };
}

class Division {
  readonly #rows: Row[];
  /** Shares of basement, slab, mixed and raised by row, before factors, one list a zone of a state, with its weight. */
  readonly #before: { weight: number; shares: number[] }[][];
  /** Logarithms of the factors half-way, then of their changes where they may change. */
  #x: Float64Array;
  readonly #left: number | null;

  /** `left` is the row that the fit must not see. */
  constructor(
    rows: Row[],
    states: State[],
    foundations: Foundations,
    stock: Places['stock'],
    tilted: boolean,
    left: number | null,
  ) {
    this.#rows = rows;
    this.#left = left;
    this.#x = new Float64Array(MOVED.length * (tilted ? 2 : 1));
    this.#before = rows.map(({ vintage }) =>
      states.flatMap(({ code, zones }) =>
        Object.entries(zones).map(([zone, share]) => ({
          weight:
            share * (stock.units[code] ?? 0) * overlap(stock.vintages, stock.byState[code] ?? [], vintage),
          shares: sharesOf(foundations, zone, vintage),
        })),
      ),
    );
  }

  factors(): Fitted['byDivision'][string] {
    const at = (k: number): [number, number] => [
      this.#factor(this.#x, k, EARLY),
      this.#factor(this.#x, k, LATE),
    ];
    const rounded = (k: number): [number, number] => {
      const [early, late] = at(k);
      return [Math.round(early * 1000) / 1000, Math.round(late * 1000) / 1000];
    };
    return { basement: rounded(0), slab: rounded(1), mixed: rounded(2) };
  }

  #factor(x: Float64Array, k: number, year: number): number {
    const way = Math.min(1, Math.max(0, (year - EARLY) / (LATE - EARLY)));
    return Math.exp((x[k] ?? 0) + (way - 0.5) * (x[MOVED.length + k] ?? 0));
  }

  /** Of a row's shares from ours, and its households. */
  divergence(r: number): { divergence: number; n: number } {
    const row = this.#rows[r];
    if (row === undefined) throw new RangeError(`no row ${r}`);
    const ours = this.#predicted(r, this.#x).map((p) => (1 - STRAY) * p + STRAY / ANSWERS.length);
    const sum = row.shares.reduce((total, p, k) => total + (p > 0 ? p * Math.log(p / (ours[k] ?? 1)) : 0), 0);
    return { divergence: row.n * sum, n: row.n };
  }

  /** One step of Fisher scoring; the sums of squares of the logarithms plus their variances. */
  improve(spread: DivisionSpread): DivisionSpread {
    const precision = this.#x.map((_, i) => 1 / (i < MOVED.length ? spread.level : spread.tilt) ** 2);
    const slope = this.#x.map((v, i) => -v * (precision[i] ?? 0));
    const curvature = Array.from(precision, (own, i) => Array.from(precision, (_, j) => (i === j ? own : 0)));
    this.#rows.forEach((row, r) => {
      if (r === this.#left) return;
      const p = this.#predicted(r, this.#x);
      const slopes = Array.from(this.#x, (_, i) => {
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
    const squares = Array.from(this.#x, (v, i) => v * v + (variance[i] ?? 0));
    const sum = (of: number[]): number => of.reduce((total, v) => total + v, 0);
    return { level: sum(squares.slice(0, MOVED.length)), tilt: sum(squares.slice(MOVED.length)) };
  }

  #predicted(r: number, x: Float64Array): number[] {
    const states = this.#before[r] ?? [];
    const [from, to] = this.#rows[r]?.vintage ?? [EARLY, LATE];
    const factors = MOVED.map((_, k) => this.#factor(x, k, (from + to) / 2));
    const all = states.reduce((sum, s) => sum + s.weight, 0);
    const mean = [0, 0, 0, 0];
    for (const { weight, shares } of states) {
      const moved = shares.map((p, k) => p * (factors[k] ?? 1));
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
