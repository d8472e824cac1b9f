import { type ShareFactors, sharesByYear } from '../../planner/belief/kernels.ts';
import { ClassLoss } from './class-loss.ts';
import { countsOf, type FitRow, type FitSubject, FROM, SEEN, yearIndex } from './fit-process.ts';
import { classChances } from './likelihood.ts';
import { minimise } from './minimise.ts';
import type { Process } from './parameters.ts';

/** Factors on each material's share of new work and of renewal work in houses of one form. */
export interface FormFactors {
  new: Record<string, number>;
  renewal: Record<string, number>;
}

/** Prior standard deviations of the logarithms of factors. */
export interface FormDesign {
  new: number;
  renewal: number;
}

/** A row of a form, with its neighborhood. */
export interface FormRow extends FitRow {
  area: string;
}

const ITERATIONS = 200;

/** The factors of a form that are likeliest given the rows of houses of that form, the process held; the log likelihood
 * is divided by a design effect, since houses of one development were built and re-clad together. The effect is
 * estimated from how the rows stray, neighborhood by neighborhood, from a first fit without it. */
export function fitForm(
  subject: FitSubject,
  process: Process,
  rows: readonly FormRow[],
  design: FormDesign,
): { factors: FormFactors; effect: number } {
  const first = fitFactors(subject, process, rows, design, 1);
  const effect = designEffect(subject, process, rows, first);
  return { factors: effect > 1 ? fitFactors(subject, process, rows, design, effect) : first, effect };
}

/** Log-factors are normal about 0. They act as a plan lets them act: year by year, before shares are made to add to 1. */
function fitFactors(
  { tested, materials, nodes }: FitSubject,
  process: Process,
  rows: readonly FitRow[],
  design: FormDesign,
  effect: number,
): FormFactors {
  const ids = [...materials.map((m) => m.id), 'none'];
  const width = ids.length;
  const likelihood = new ClassLoss(
    materials,
    Object.values(tested.classes),
    countsOf(rows, Object.keys(tested.classes)),
    { from: FROM, asOf: SEEN },
    nodes,
  );
  const of = (x: Float64Array): FormFactors => ({
    new: Object.fromEntries(ids.map((id, m) => [id, Math.exp(x[m] ?? 0)])),
    renewal: Object.fromEntries(ids.map((id, m) => [id, Math.exp(x[width + m] ?? 0)])),
  });
  const sdOf = (i: number): number => (i < width ? design.new : design.renewal);
  let slope = new Float64Array(2 * width);
  const objective = (x: Float64Array): number => {
    const factors = shareFactors(of(x));
    const by = likelihood.at(process, factors);
    const byLog = (which: 'new' | 'renewal', byShare: Float64Array[]): number[] =>
      byLogFactor(sharesByYear(process.shares[which], ids, FROM, SEEN - FROM, factors[which]), byShare);
    const own = [...byLog('new', by.sNew), ...byLog('renewal', by.sRen)];
    slope = Float64Array.from(own, (v, i) => v / effect + (x[i] ?? 0) / sdOf(i) ** 2);
    return x.reduce((sum, v, i) => sum + 0.5 * (v / sdOf(i)) ** 2, by.loss / effect);
  };
  const { x } = minimise(objective, new Float64Array(2 * width), {
    iterations: ITERATIONS,
    slope: () => slope,
  });
  return of(x);
}

/** How much more the classes' counts stray by neighborhood than those of independent houses would: the squares of what
 * was recorded less what was expected, over the Binomial variances, added up over neighborhoods and classes. At least 1. */
function designEffect(
  { tested, materials, nodes }: FitSubject,
  process: Process,
  rows: readonly FormRow[],
  factors: FormFactors,
): number {
  const table = classChances(process, materials, tested.classes, FROM, SEEN, nodes, shareFactors(factors));
  let strayed = 0;
  let variance = 0;
  for (const [name, chances] of Object.entries(table)) {
    const byArea = new Map<string, number>();
    for (const { built, name: recorded, area } of rows) {
      const chance = chances[yearIndex(built)] ?? 0;
      byArea.set(area, (byArea.get(area) ?? 0) + (recorded === name ? 1 : 0) - chance);
      variance += chance * (1 - chance);
    }
    for (const sum of byArea.values()) strayed += sum * sum;
  }
  return variance > 0 ? Math.max(1, strayed / variance) : 1;
}

/** Slope by the logarithm of each material's factor, given that by its shares of every year after they were made to add
 * to 1. */
function byLogFactor(shares: Float64Array[], by: Float64Array[]): number[] {
  const years = shares[0]?.length ?? 0;
  const result = shares.map(() => 0);
  for (let t = 0; t < years; t++) {
    const mean = shares.reduce((sum, row, m) => sum + (row[t] ?? 0) * (by[m]?.[t] ?? 0), 0);
    shares.forEach((row, m) => {
      result[m] = (result[m] ?? 0) + (row[t] ?? 0) * ((by[m]?.[t] ?? 0) - mean);
    });
  }
  return result;
}

/** Factors as the renewal process takes them: a material that is not named keeps its share. */
export function shareFactors(factors: FormFactors): ShareFactors {
  return { new: (id) => factors.new[id] ?? 1, renewal: (id) => factors.renewal[id] ?? 1 };
}
