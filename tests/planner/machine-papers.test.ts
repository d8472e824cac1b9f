import { describe, expect, it } from 'vitest';
import { indexBase } from '../../planner/base-index.ts';
import { avoiding } from '../../planner/belief/avoiding.ts';
import { backward } from '../../planner/belief/backward.ts';
import { believe } from '../../planner/belief/believe.ts';
import { OTHER_PLATE, TOLD_OF_GONE } from '../../planner/belief/clue-evidence.ts';
import type { RecordWeight } from '../../planner/belief/evidence.ts';
import { posterior } from '../../planner/belief/forward.ts';
import { makeGrid } from '../../planner/belief/grid.ts';
import { makeKernels, survival } from '../../planner/belief/kernels.ts';
import { LikeForLike } from '../../planner/belief/like-for-like.ts';
import { machineless } from '../../planner/belief/machineless.ts';
import type { ClueInput } from '../../planner/house/house.ts';
import { planHouse } from '../../planner/index.ts';
import { random } from '../../planner/numerics/sampling.ts';
import { base, resolved } from './any-house.ts';

/** An invented system of three kinds and none: a furnace of 18 years whose kind stays for 45, a stove of 25 whose kind
 * stays for 50 and which is not sold after 1960, and a heater whose kind goes with the machine. */
const FROM = 1920;
const AS_OF = 2020;
const LIVES = [
  { id: 'furnace', kind: 45, machine: 18 },
  { id: 'stove', kind: 50, machine: 25, until: 1960 - FROM },
  { id: 'heater', kind: 20, machine: 20 },
];
const practice = { grade: 'practice' as const, source: [] };
const kernels = makeKernels(
  {
    shares: {
      new: {
        ...practice,
        years: [1920, 1960],
        rows: { furnace: [0.2, 0.8], stove: [0.6, 0], heater: [0.1, 0.2], none: [0.1, 0] },
      },
      renewal: {
        ...practice,
        years: [1920, 1960],
        rows: { furnace: [0.45, 0.65], stove: [0.3, 0], heater: [0.2, 0.3], none: [0.05, 0.05] },
      },
    },
    waves: [{ of: ['none', 'stove'], from: 1940, to: 1990, rate: 0.03, whole: 1, why: 'gas', ...practice }],
  },
  LIVES.map(({ id, kind }) => ({ id, life: kind, shape: 3, whole: 1 })),
  FROM,
  AS_OF,
);
const NONE = kernels.ids.indexOf('none');
const follow = new LikeForLike(
  [
    ...LIVES.map(({ kind, machine, until }) => ({
      kind,
      machine,
      shape: 3,
      ...(until === undefined ? {} : { until }),
    })),
    null,
  ],
  kernels.last,
  new Set([NONE]),
);
const LAST = kernels.last;

interface Lived {
  kind: number;
  /** Year index of the machine that stands; of no machine, that in which the house came to have none. */
  machine: number;
  putIn: Set<number>;
  everStove: boolean;
}

/** A history year by year, from the words of docs/model.md: the kind's clock first, then the machine's. */
function live(next: () => number): Lived {
  const draw = (rows: Float64Array[], t: number): number => {
    let u = next();
    for (let m = 0; m < rows.length; m++) {
      u -= rows[m]?.[t] ?? 0;
      if (u < 0) return m;
    }
    return rows.length - 1;
  };
  let kind = draw(kernels.sNew, 0);
  let [since, machine] = [0, 0];
  const putIn = new Set<number>();
  let everStove = kind === 1;
  for (let t = 1; t <= LAST; t++) {
    const left = survival(kernels.complete, kind, since, t) / survival(kernels.complete, kind, since, t - 1);
    if (next() >= left) {
      kind = draw(kernels.sRen, t);
      [since, machine] = [t, t];
      if (kind !== NONE) putIn.add(t);
      everStove ||= kind === 1;
      continue;
    }
    const life = LIVES[kind];
    if (life === undefined || life.kind <= life.machine || t > (life.until ?? LAST)) continue;
    const share = 1 - (life.machine / life.kind) ** 3;
    const worn = (age: number): number => share * Math.LN2 * (age / life.machine) ** 3;
    if (next() < Math.exp(worn(t - 1 - machine) - worn(t - machine))) continue;
    machine = t;
    putIn.add(t);
  }
  return { kind, machine, putIn, everStove };
}

const next = random(20261127);
const DRAWN = 300_000;
const drawn = Array.from({ length: DRAWN }, () => live(next));

const paper = (year: number, standing: number): RecordWeight => ({
  year: year - FROM,
  complete: standing,
  since: TOLD_OF_GONE * standing,
  partial: 1,
  nothing: 1,
});
const plate = (year: number): Float64Array[] =>
  kernels.ids.map((_, m) =>
    Float64Array.from({ length: LAST + 1 }, (__, t) => (m !== NONE && t === year - FROM ? 1 : 0.02)),
  );
const CASES: { title: string; records: RecordWeight[]; weights: Float64Array[] | null }[] = [
  { title: 'one paper', records: [paper(2002, 60)], weights: null },
  { title: 'an old paper', records: [paper(1955, 40)], weights: null },
  { title: 'two papers', records: [paper(1985, 30), paper(2003, 60)], weights: null },
  { title: 'two papers and a plate', records: [paper(1985, 30), paper(2003, 60)], weights: plate(2003) },
];

describe('papers on machines of a kind', () => {
  for (const { title, records, weights } of CASES)
    it(`agree with 300,000 drawn histories: ${title}`, () => {
      const evidence = follow.ofKinds({ reachable: weights, hidden: null, records });
      const tables = follow.machines(posterior(kernels, evidence, 0), { weights, records });
      const weightOf = ({ kind, machine, putIn }: Lived): number =>
        records.reduce(
          (product, { year, complete, since }) =>
            product * (putIn.has(year) ? (machine === year ? complete : (since ?? 1)) : 1),
          weights?.[kind]?.[machine] ?? 1,
        );
      const all = drawn.map(weightOf);
      const total = all.reduce((a, b) => a + b, 0);
      // The chance of a set of histories, and four standard errors of it, as weighed draws have them.
      const seen = (of: (lived: Lived) => boolean): { p: number; error: number } => {
        const p = drawn.reduce((sum, lived, i) => sum + (of(lived) ? (all[i] ?? 0) : 0), 0) / total;
        const spread = drawn.reduce(
          (sum, lived, i) => sum + ((all[i] ?? 0) * ((of(lived) ? 1 : 0) - p)) ** 2,
          0,
        );
        return { p, error: (4 * Math.sqrt(spread)) / total + 1e-4 };
      };
      kernels.ids.forEach((id, m) => {
        const row = tables.reachable[m] ?? new Float64Array();
        const kind = seen((lived) => lived.kind === m);
        expect(Math.abs(row.reduce((a, b) => a + b, 0) - kind.p), id).toBeLessThan(kind.error);
        for (const year of [1920, 1955, 1960, 1984, 1985, 1986, 2001, 2002, 2003, 2012]) {
          const of = seen((lived) => lived.kind === m && lived.machine === year - FROM);
          expect(Math.abs((row[year - FROM] ?? 0) - of.p), `${id} of ${year}`).toBeLessThan(of.error);
        }
      });
      // Whether a stove was ever there: histories that never hold one, and all histories.
      const grid = makeGrid(
        kernels,
        [0],
        () => 1,
        records.map((r) => r.year),
      );
      const whole = avoiding(grid, evidence, null)[0] ?? 0;
      expect(whole / (backward(kernels, evidence).z[0] ?? 1)).toBeCloseTo(1, 9);
      const ever = seen((lived) => lived.everStove);
      expect(Math.abs(1 - (avoiding(grid, evidence, 1)[0] ?? 0) / whole - ever.p)).toBeLessThan(ever.error);
    });
});

const index = indexBase(base);
const heating = (clues: ClueInput[], built = 1924) => {
  const input = { asOf: 2026, place: 'OH', parts: [{ built }], clues };
  const plan = planHouse(base, resolved(input), input);
  const system = plan.systems.find((s) => s.system === 'heating-plant');
  const odds = (id: string): number => system?.materials.find((m) => m.material === id)?.reachable ?? 0;
  const risk = (id: string): number => plan.risks.find((r) => r.failure === id)?.probability ?? 0;
  const furnace = system?.materials.find((m) => m.material === 'gas-furnace')?.installed.reachable;
  return { odds, risk, furnace };
};

describe('a furnace replaced', () => {
  it('is mostly replaced like for like: the kind hardly moves, the machine is of the year told', () => {
    const before = heating([]);
    const after = heating([{ id: 'furnace-replaced', year: 2005 }]);
    // A gravity furnace was not sold for decades: whoever bought a machine in 2005 has none.
    const modern = 1 - before.odds('gravity-furnace') - before.odds('coal-boiler');
    for (const id of ['gas-furnace', 'hot-water-boiler', 'steam-boiler', 'electric-heat'])
      expect(Math.abs(after.odds(id) - before.odds(id) / modern), id).toBeLessThan(0.03);
    expect(after.odds('gravity-furnace')).toBeLessThan(0.02);
    expect(before.furnace?.p50).toBeGreaterThan(2012);
    expect(after.furnace?.p50).toBe(2005);
    // The base gives such a paper 85 in 100; the rest of what is missing was replaced again.
    expect(yearsOff(1924, { id: 'furnace-replaced', year: 2005 }, 'heating-plant')).toBeLessThan(0.4);
  });

  it('has the failure odds of its age', () => {
    const past = (year: number): number =>
      heating([{ id: 'furnace-replaced', year }]).risk('heating-plant-past-life');
    expect(past(2005)).toBeGreaterThan(heating([]).risk('heating-plant-past-life') + 0.1);
    expect(past(2020)).toBeLessThan(heating([]).risk('heating-plant-past-life') - 0.05);
    expect(past(2005)).toBeGreaterThan(past(2012));
  });
});

/** Of houses that have the system: chance that what is within reach is of another year than the plate says, or of one
 * beside it. */
function yearsOff(built: number, clue: Required<Pick<ClueInput, 'id' | 'year'>>, system: string): number {
  const house = resolved({ asOf: 2026, place: 'OH', parts: [{ built }], clues: [clue] });
  const state = believe(index, house).find((s) => s.system.id === system);
  if (state === undefined) throw new Error(`no ${system}`);
  const bare = machineless(index, system, state.kernels.ids);
  let [near, all] = [0, 0];
  state.tables.reachable.forEach((row, m) => {
    if (bare.has(m)) return;
    row.forEach((p, t) => {
      all += p;
      if (Math.abs(state.kernels.from + t - clue.year) <= 1) near += p;
    });
  });
  return 1 - near / all;
}

describe('the year of a nameplate', () => {
  it('is held misread, or of another machine, one time in twenty, however old the house', () => {
    for (const built of [1820, 1924, 1985])
      for (const [id, system] of [
        ['heating-plate-year', 'heating-plant'],
        ['ac-plate-year', 'cooling'],
        ['water-heater-plate-year', 'water-heating'],
      ] as const) {
        const off = yearsOff(built, { id, year: 2008 }, system);
        expect(off, `${id} ${built}`).toBeGreaterThan(0.75 * OTHER_PLATE);
        expect(off, `${id} ${built}`).toBeLessThanOrEqual(OTHER_PLATE + 1e-9);
      }
  });

  it('is believed of an old machine too, but not of one older than any', () => {
    expect(yearsOff(1924, { id: 'heating-plate-year', year: 1985 }, 'heating-plant')).toBeLessThan(0.06);
    expect(yearsOff(1985, { id: 'heating-plate-year', year: 1950 }, 'heating-plant')).toBeGreaterThan(0.99);
  });

  it('speaks against materials that are the lack of a machine', () => {
    const lack = (clues: ClueInput[]): number => {
      const house = resolved({ asOf: 2026, place: 'OH', parts: [{ built: 1924 }], clues });
      const state = believe(index, house).find((s) => s.system.id === 'cooling');
      const row = state?.tables.reachable[state.kernels.ids.indexOf('no-cooling-no-ducts')];
      return row?.reduce((a, b) => a + b, 0) ?? 1;
    };
    expect(lack([])).toBeGreaterThan(0.03);
    expect(lack([{ id: 'ac-plate-year', year: 2015 }])).toBeLessThan(0.01);
  });
});
