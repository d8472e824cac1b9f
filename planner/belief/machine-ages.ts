import { exp, pow } from '../numerics/functions.ts';

/** How machines of one kind follow each other while a house stays with the kind. */
export interface MachineAges {
  /** Chance that a machine has not worn out by an age. */
  survives: Float64Array;
  /** Chance that one is put in so many years after the first. */
  put: Float64Array;
  /** Age that next to none reaches. */
  oldest: number;
  /** Last year index in which one is put in; what stands then is kept running. */
  until: number;
}

/** Lives in years, by which half are renewed: of the kind in a house, and of a machine. */
export interface KindLife {
  kind: number;
  machine: number;
  shape: number;
  /** Last year index in which such a machine was sold; left out: it still is. */
  until?: number;
}

const NEGLIGIBLE = 1e-15;

/** Wear beyond that which ends the stay: together they wear the machine out at its own life. */
export function machineAges({ kind, machine, shape, until }: KindLife, last: number): MachineAges {
  const share = 1 - pow(machine / kind, shape);
  const survives = Float64Array.from({ length: last + 1 }, (_, age) =>
    exp(-share * Math.LN2 * pow(age / machine, shape)),
  );
  const put = new Float64Array(last + 1);
  put[0] = 1;
  for (let j = 1; j <= last; j++) {
    let sum = 0;
    for (let i = 1; i <= j; i++)
      sum += ((survives[i - 1] as number) - (survives[i] as number)) * (put[j - i] as number);
    put[j] = sum;
  }
  const gone = survives.findIndex((s) => s < NEGLIGIBLE);
  return { survives, put, oldest: gone < 0 ? last : gone, until: Math.min(last, until ?? last) };
}

/** Years of the machines that stand today, of stays by the year they began, with nothing known of the machines. */
export function plainMachines(
  { put, survives, oldest, until }: MachineAges,
  stays: Float64Array,
): Float64Array {
  const years = stays.slice();
  for (let t = 0; t < until; t++) {
    const mass = stays[t] as number;
    if (mass === 0) continue;
    years[t] = (years[t] as number) - mass;
    for (let u = Math.max(t, until - oldest); u <= until; u++)
      years[u] = (years[u] as number) + mass * (put[u - t] as number) * (survives[until - u] as number);
  }
  return years;
}

/** A paper that dates the putting in of a machine: year index, and how much likelier the paper is if one was put in
 * that year, and stands today or has been replaced since, than if none was. */
export interface MachinePaper {
  year: number;
  standing: number;
  since: number;
}

/** A stay with one kind of machine, begun in year t. A paper of year t itself is weighed as `standing` by whatever tells
 * of the change of kind; what it is worth less is put right here. */
export class Stay {
  readonly #ages: MachineAges | null;
  readonly #hasMachine: boolean;
  readonly #papers: readonly MachinePaper[];

  /** `ages` null: one machine for the whole stay. `papers` rise by year, one a year. */
  constructor(ages: MachineAges | null, hasMachine: boolean, papers: readonly MachinePaper[]) {
    this.#ages = ages;
    this.#hasMachine = hasMachine;
    this.#papers = papers;
  }

  /** Mean weight of the papers up to year `end` on a stay from t that ended after it: none of its machines stands. */
  ended(t: number, end: number): number {
    let sum = 1;
    for (const { put } of this.#chains(t, end)) sum += put;
    return sum * this.#first(t).since;
  }

  /** Fills `into` from place t on: by the year that today's machine of a stay from t may be of, the chance of it times the
   * weight of the papers. */
  standing(t: number, into: Float64Array): void {
    const ages = this.#ages;
    const first = this.#first(t);
    into.fill(0, t);
    if (ages === null || t >= ages.until) {
      into[t] = first.standing;
      return;
    }
    const end = ages.until;
    for (let u = Math.max(t, end - ages.oldest); u <= end; u++)
      into[u] = first.since * (ages.put[u - t] as number) * (ages.survives[end - u] as number);
    into[t] = first.standing * (ages.survives[end - t] as number);
    for (const { year, put, standing } of this.#chains(t, end)) {
      into[year] = (into[year] as number) * standing;
      for (let u = year + 1; u <= end; u++)
        into[u] =
          (into[u] as number) +
          first.since * put * (ages.put[u - year] as number) * (ages.survives[end - u] as number);
    }
  }

  /** Of the machine that begins the stay: weight if it stands today, and if it has been replaced. */
  #first(t: number): { standing: number; since: number } {
    const paper = this.#papers.find((p) => p.year === t);
    if (paper === undefined) return { standing: 1, since: 1 };
    if (!this.#hasMachine) return { standing: 1 / paper.standing, since: 1 / paper.standing };
    return { standing: 1, since: paper.since / paper.standing };
  }

  /** For each paper after t and up to `end`: over all machines put in by then, what the papers add to a weight of 1, by the
   * last paper that is of a machine of the stay. A product of (1 + x) over papers, multiplied out. */
  #chains(t: number, end: number): { year: number; put: number; standing: number }[] {
    const ages = this.#ages;
    const chains: { year: number; put: number; standing: number }[] = [];
    if (ages === null) return chains;
    for (const { year, standing, since } of this.#papers) {
      if (year <= t || year > Math.min(end, ages.until)) continue;
      let put = ages.put[year - t] as number;
      for (const earlier of chains) put += earlier.put * (ages.put[year - earlier.year] as number);
      chains.push({ year, put: (since - 1) * put, standing });
    }
    return chains;
  }
}
