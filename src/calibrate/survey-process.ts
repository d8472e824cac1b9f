import type { Base, Entry } from '../../knowledge/schema/base.ts';
import type { ShareTable, System } from '../../knowledge/schema/system.ts';
import { holdingIn, productOf, wavesAt } from '../../planner/belief/fit-of.ts';
import { nodesOf, type RenewingNode, spreadsOf } from '../../planner/belief/renewing.ts';
import { stockPrior } from '../../planner/house/priors.ts';
import { classChances } from './likelihood.ts';
import { between, type Process } from './parameters.ts';

/** A system's renewal process as the energy surveys can move it: log-offsets of the shares of a group of materials at
 * knots, log-factors of wave rates and, where lives are those of kinds, of a group's lives. All zero is the authored
 * process. */
const NEW_KNOTS = [1900, 1930, 1950, 1965, 1980, 1995, 2010];
const RENEWAL_KNOTS = [1950, 1970, 1988, 2005];

/** Prior standard deviations, as in `parameters.ts`. A kind outlasts its machine: its life is the machine's times
 * 1 + exp(x), x around 0: twice as long at the middle of the prior (practice). */
const SD = { offset: 1.5, step: 0.8, life: 0.7, rate: 0.7 };

const FROM = 1880;

/** What a place adds to the nation: log-offsets of the groups' shares, and the logarithm of the pace of its waves. */
export interface PlaceOffsets {
  shares: readonly number[];
  pace: number;
}

/** Chance of each group in a vintage of a state, seen in a year. */
export interface Seen {
  from: number;
  to: number;
  asOf: number;
}

export class SurveyProcess {
  readonly #base: Base;
  readonly #system: Entry<System>;
  readonly #materials: Base['materials'];
  readonly #groupOf = new Map<string, number>();
  readonly #nodes: RenewingNode[];
  readonly groups: string[];
  readonly #livesFitted: boolean;
  readonly #classes: Record<string, string[]>;

  constructor(base: Base, system: Entry<System>, groups: Record<string, string[]>, keepsKind: boolean) {
    this.#livesFitted = keepsKind;
    this.#base = base;
    this.#system = system;
    this.#materials = base.materials.filter((m) => m.system === system.id);
    this.groups = Object.keys(groups);
    this.#classes = withLacking(groups, this.#materials);
    this.groups.forEach((group, g) => {
      for (const id of this.#classes[group] ?? []) this.#groupOf.set(id, g);
    });
    const left = this.#materials.filter((m) => !this.#groupOf.has(m.id)).map((m) => m.id);
    if (left.length > 0) throw new Error(`${system.id}: no group holds ${left.join(', ')}`);
    this.#nodes = nodesOf(spreadsOf(base), system);
  }

  get length(): number {
    const lives = this.#livesFitted ? 1 : 0;
    return this.groups.length * (NEW_KNOTS.length + RENEWAL_KNOTS.length + lives) + this.#system.waves.length;
  }

  /** The process that national parameters stand for; shares are not yet made whole. */
  process(x: Float64Array): Process {
    let at = 0;
    const take = (n: number): number[] => {
      const values = Array.from(x.subarray(at, at + n));
      at += n;
      return values;
    };
    const fresh = this.groups.map(() => take(NEW_KNOTS.length));
    const renewed = this.groups.map(() => take(RENEWAL_KNOTS.length));
    const lives = this.#livesFitted ? take(this.groups.length) : [];
    const rates = take(this.#system.waves.length);
    return {
      shares: {
        new: this.#moved(this.#system.shares.new, NEW_KNOTS, fresh),
        renewal: this.#moved(this.#system.shares.renewal, RENEWAL_KNOTS, renewed),
      },
      lives: Object.fromEntries(
        this.#materials.map((m) => {
          const beyond = this.#livesFitted ? Math.exp(lives[this.#groupOf.get(m.id) ?? 0] ?? 0) : 0;
          return [m.id, m.life.best * (1 + beyond)];
        }),
      ),
      waves: this.#system.waves.map((w, i) => ({
        ...w,
        rate: Math.min(0.6, w.rate * Math.exp(rates[i] ?? 0)),
      })),
    };
  }

  #moved(table: ShareTable, knots: number[], offsets: number[][]): ShareTable {
    const first = table.years[0] ?? 0;
    const years = [...new Set([...table.years, ...knots.filter((k) => k > first)])].sort((a, b) => a - b);
    const rows = Object.fromEntries(
      Object.entries(table.rows).map(([id, row]) => {
        const own = offsets[this.#groupOf.get(id) ?? 0] ?? [];
        return [id, years.map((y) => between(table.years, row, y) * Math.exp(between(knots, own, y)))];
      }),
    );
    return { ...table, years, rows: wholeColumns(rows) };
  }

  /** Second derivative of the priors (a precision matrix) as triples, in the order of the parameters. */
  priorPrecision(add: (i: number, j: number, value: number) => void): void {
    let at = 0;
    const curve = (knots: number): void => {
      for (let k = 0; k < knots; k++) {
        add(at + k, at + k, 1 / SD.offset ** 2);
        if (k === 0) continue;
        const w = 1 / SD.step ** 2;
        add(at + k, at + k, w);
        add(at + k - 1, at + k - 1, w);
        add(at + k, at + k - 1, -w);
        add(at + k - 1, at + k, -w);
      }
      at += knots;
    };
    for (const _ of this.groups) curve(NEW_KNOTS.length);
    for (const _ of this.groups) curve(RENEWAL_KNOTS.length);
    if (this.#livesFitted) for (const _ of this.groups) add(at, at++, 1 / SD.life ** 2);
    for (const _ of this.#system.waves) add(at, at++, 1 / SD.rate ** 2);
  }

  /** Factor of each material in a state: the authored one of its region times the exponential of its group's offset. */
  factors(state: string | null, { shares }: PlaceOffsets): Record<string, number> {
    const authored = productOf(this.#authored(state));
    return Object.fromEntries(
      [...this.#groupOf].map(([id, g]) => [id, authored(id) * Math.exp(shares[g] ?? 0)]),
    );
  }

  /** The process of a place: shares times their factors, waves at its pace. */
  #in(process: Process, state: string | null, offsets: PlaceOffsets): Process {
    const factor = this.factors(state, offsets);
    const table = (t: ShareTable): ShareTable => ({
      ...t,
      rows: Object.fromEntries(
        Object.entries(t.rows).map(([id, row]) => [id, row.map((v) => v * (factor[id] ?? 1))]),
      ),
    });
    const { shares, waves } = process;
    return {
      ...process,
      shares: { new: table(shares.new), renewal: table(shares.renewal) },
      waves: wavesAt(waves, Math.exp(offsets.pace)),
    };
  }

  #authored(state: string | null): System['regions'] {
    const region = this.#base.places.states.find((s) => s.code === state)?.region;
    return holdingIn(this.#system.regions, state, region);
  }

  /** Chance of each group in every vintage asked, in the order asked. `step` is that of the calendar: 1 is
   * exact, more is faster and good enough for slopes. */
  chances(process: Process, state: string | null, offsets: PlaceOffsets, seen: Seen[], step = 1): number[][] {
    if (seen.length === 0) return [];
    const here = this.#in(process, state, offsets);
    const byYear = new Map<number, Record<string, Float64Array>>();
    // The last group is what is left of 1: one pass less.
    const classes = Object.fromEntries(Object.entries(this.#classes).slice(0, -1));
    return seen.map(({ from, to, asOf }) => {
      const last = Math.round((asOf - FROM) / step);
      const made =
        byYear.get(last) ??
        classChances(
          step === 1 ? here : coarse(here, step),
          this.#materials,
          classes,
          step === 1 ? FROM : 0,
          step === 1 ? asOf : last,
          this.#nodes,
        );
      byYear.set(last, made);
      const years = this.#years(state, from, to, asOf);
      const at = (value: number): number => Math.min(last, Math.round((value - FROM) / step));
      const shares = this.groups
        .slice(0, -1)
        .map((group) => years.reduce((sum, { value, p }) => sum + p * (made[group]?.[at(value)] ?? 0), 0));
      return [...shares, Math.max(0, 1 - shares.reduce((a, b) => a + b, 0))];
    });
  }

  readonly #yearCache = new Map<string, { value: number; p: number }[]>();

  /** Build years of a vintage by the houses of the state that stand of them. */
  #years(state: string | null, from: number, to: number, asOf: number): { value: number; p: number }[] {
    const key = `${state} ${from} ${to} ${asOf}`;
    const ready = this.#yearCache.get(key);
    if (ready !== undefined) return ready;
    const all = stockPrior(this.#base, state, asOf).filter(
      (y) => y.value >= Math.max(from, FROM) && y.value <= to && y.p > 0,
    );
    const sum = all.reduce((total, y) => total + y.p, 0);
    const years = sum > 0 ? all.map((y) => ({ value: y.value, p: y.p / sum })) : [{ value: from, p: 1 }];
    this.#yearCache.set(key, years);
    return years;
  }
}

function wholeColumns(rows: Record<string, number[]>): Record<string, number[]> {
  const ids = Object.keys(rows);
  const width = rows[ids[0] ?? '']?.length ?? 0;
  const sums = Array.from({ length: width }, (_, c) =>
    ids.reduce((sum, id) => sum + (rows[id]?.[c] ?? 0), 0),
  );
  return Object.fromEntries(
    ids.map((id) => [id, (rows[id] ?? []).map((v, c) => (sums[c] ? v / (sums[c] ?? 1) : v))]),
  );
}

/** Materials that mean that the system is not there count with `none`. */
function withLacking(
  groups: Record<string, string[]>,
  materials: Base['materials'],
): Record<string, string[]> {
  const lacking = materials.filter((m) => m.lacks === true).map((m) => m.id);
  return Object.fromEntries(
    Object.entries(groups).map(([name, ids]) => [
      name,
      ids.includes('none') ? [...new Set([...ids, ...lacking])] : ids,
    ]),
  );
}

/** The same process counted in steps of several years from `FROM`. */
function coarse(process: Process, step: number): Process {
  const table = (t: ShareTable): ShareTable => ({ ...t, years: t.years.map((y) => (y - FROM) / step) });
  return {
    shares: { new: table(process.shares.new), renewal: table(process.shares.renewal) },
    lives: Object.fromEntries(Object.entries(process.lives).map(([id, life]) => [id, life / step])),
    waves: process.waves.map((w) => ({
      ...w,
      from: Math.round((w.from - FROM) / step),
      to: Math.round((w.to - FROM) / step),
      rate: 1 - (1 - w.rate) ** step,
    })),
  };
}
