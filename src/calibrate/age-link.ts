/** How an occupant's word of a machine's age comes from its age. Those who came after the machine do not know its year: a part
 * of them calls it as old as the last class goes. */

/** Mass of each age class: of machines whose year the occupant knows, and of the others. */
export interface Ages {
  known: number[];
  guessed: number[];
}

/** One row of the survey. */
export interface AgeRow {
  equipment: string;
  vintage: string;
  n: number;
  /** Share of each class. */
  observed: number[];
  ages: Ages;
  /** Whether the link may be fitted to it; the others are the test. */
  fitted: boolean;
}

/** Least age of each class, in whole years. */
const AGE_FROM = [0, 2, 5, 10, 20];
/** Variance against a simple random sample; practice. */
const DESIGN = 1.5;
/** Part of the answers that is at random. */
const STRAY = 0.01;

export function classOfAge(age: number): number {
  return AGE_FROM.findLastIndex((least) => age >= least);
}

/** Shares of the classes as told, where a part `called` of those who do not know a machine's age call it old. */
export function asTold({ known, guessed }: Ages, called: number): number[] {
  const unknown = guessed.reduce((sum, mass) => sum + mass, 0);
  const old = AGE_FROM.length - 1;
  const told = known.map(
    (mass, k) => mass + (1 - called) * (guessed[k] ?? 0) + (k === old ? called * unknown : 0),
  );
  const all = told.reduce((sum, mass) => sum + mass, 0);
  return told.map((mass) => ((1 - STRAY) * mass) / all + STRAY / told.length);
}

/** Mean log loss of an answer, nats. */
export function ageLoss(rows: AgeRow[], called: number): number {
  const losses = rows.map(
    (row) =>
      -row.n * asTold(row.ages, called).reduce((sum, p, k) => sum + (row.observed[k] ?? 0) * Math.log(p), 0),
  );
  return losses.reduce((a, b) => a + b, 0) / rows.reduce((sum, row) => sum + row.n, 0);
}

/** The part `called` that makes the rows likeliest, to 0.001: the loss has one lowest point, which is closed in on by thirds. */
export function fitCalled(rows: AgeRow[]): number {
  let [low, high] = [0, 1];
  while (high - low > 0.001) {
    const third = (high - low) / 3;
    if (ageLoss(rows, low + third) < ageLoss(rows, high - third)) high -= third;
    else low += third;
  }
  return (low + high) / 2;
}

/** Mean distance between share told and share observed over rows and classes. */
export function ageError(rows: AgeRow[], called: number): number {
  return mean(
    rows.flatMap((row) => asTold(row.ages, called).map((p, k) => Math.abs(p - (row.observed[k] ?? 0)))),
  );
}

/** What that distance would be by chance alone, if the shares observed were the true ones. */
export function chanceError(rows: AgeRow[]): number {
  return mean(
    rows.flatMap((row) => row.observed.map((p) => Math.sqrt(((2 / Math.PI) * DESIGN * p * (1 - p)) / row.n))),
  );
}

function mean(values: number[]): number {
  return values.reduce((sum, v) => sum + v, 0) / values.length;
}
