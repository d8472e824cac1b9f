import type { BaseIndex } from '../base-index.ts';
import type { House, Odds, Part } from '../house/house.ts';
import { exp, log } from '../numerics/functions.ts';
import { builtLikelihood } from './built-clues.ts';
import { type EvidenceNode, evidenceNodes } from './year-evidence.ts';

/** Odds over the build years of the main block and of each addition that has clues, and how well the clues fit. */
export interface HouseYears {
  main: Odds<number>;
  additions: { part: Part; years: Odds<number> }[];
  /** Log-likelihood of all clues for a main block built in a year. */
  fit: (year: number) => number;
  /** The same for a house of unknown age: averaged over the prior. */
  overall: number;
}

/** Dates the parts of a house, the clues `without` left out. `prior` holds consecutive years. A node r of how much the owners renew has weight pi_r;
 * the clues of a part have likelihood L_r(year). An addition is as likely to have come in any year since the main
 * block, so it speaks of the main block too: the main block is older (docs/model.md, "Dating"). */
export function houseYears(
  index: BaseIndex,
  house: House,
  prior: Odds<number>,
  without: ReadonlySet<string>,
): HouseYears {
  const [main, ...others] = house.parts;
  if (main === undefined) throw new RangeError('a house has at least one part');
  const told = others.filter((part) =>
    house.clues.some((c) => c.part === part.name && speaksOfPart(index, c.id)),
  );
  const ownNodes = partLikelihood(index, house, main, prior, without);
  const additionNodes = told.map((part) => partLikelihood(index, house, part, prior, without));
  const count = prior.length;

  const likelihoods: Float64Array[] = [];
  const byAddition = told.map((): Float64Array[] => []);
  ownNodes.forEach((node, r) => {
    const additions = additionNodes.map((nodes) => nodes[r]?.log ?? new Float64Array(count));
    const since = additions.map(averageSince);
    const joint = Float64Array.from(node.log, (own, t) =>
      since.reduce((sum, row) => sum + (row[t] ?? 0), own + log(node.weight)),
    );
    likelihoods.push(joint);
    additions.forEach((own, a) => {
      const rest = joint.map((v, t) => v - (since[a]?.[t] ?? 0) + log(prior[t]?.p ?? 0));
      byAddition[a]?.push(additionYears(own, rest));
    });
  });
  const all = Float64Array.from({ length: count }, (_, t) => logSum(likelihoods.map((row) => row[t] ?? 0)));
  const joint = all.map((v, t) => v + log(prior[t]?.p ?? 0));
  const from = prior[0]?.value ?? 0;
  return {
    main: oddsOf(joint, from),
    additions: told.map((part, a) => ({
      part,
      years: oddsOf(
        Float64Array.from({ length: count }, (_, t) =>
          logSum((byAddition[a] ?? []).map((row) => row[t] ?? 0)),
        ),
        from,
      ),
    })),
    fit: (year) => all[year - from] ?? Number.NEGATIVE_INFINITY,
    overall: logSum([...joint]),
  };
}

/** Clues on systems of the whole house say nothing of an addition's year. */
function speaksOfPart(index: BaseIndex, id: string): boolean {
  const clue = index.clues.get(id);
  return clue?.built !== undefined || index.systems.get(clue?.system ?? '')?.scope === 'part';
}

/** Log-likelihood of everything told of a part for each year of the prior, at each node. */
function partLikelihood(
  index: BaseIndex,
  house: House,
  part: Part,
  prior: Odds<number>,
  without: ReadonlySet<string>,
): EvidenceNode[] {
  const from = prior[0]?.value ?? 0;
  const count = prior.length;
  const fixed = builtLikelihood(index, house, part, from, count, without);
  return evidenceNodes(index, house, part, from, without).map(({ weight, log: told }) => ({
    weight,
    log: fixed.map((sum, t) => sum + (told[t] ?? 0)),
  }));
}

/** For a main block built in each year, the log of an addition's mean likelihood over the years since. */
function averageSince(addition: Float64Array): Float64Array {
  const last = addition.length - 1;
  const top = Math.max(...addition);
  const result = new Float64Array(addition.length);
  result[last] = addition[last] ?? 0;
  let sum = 0;
  for (let t = last - 1; t >= 0; t--) {
    sum += exp((addition[t + 1] ?? 0) - top);
    result[t] = top + log(Math.max(sum / (last - t), 1e-300));
  }
  return result;
}

/** Log of an addition's odds over its years: its own likelihood times the chance that the main block stood. `rest` is
 * the log of the main block's odds from everything else. */
function additionYears(own: Float64Array, rest: Float64Array): Float64Array {
  const last = own.length - 1;
  const top = Math.max(...rest);
  let stood = 0;
  return own.map((v, t) => {
    if (t > 0) stood += exp((rest[t - 1] ?? 0) - top) / (last - t + 1);
    // What was built this year can only have been added to this year.
    if (t === last) stood += exp((rest[t] ?? 0) - top);
    return v + top + log(Math.max(stood, 1e-300));
  });
}

/** Log of the sum of exponentials. */
function logSum(values: number[]): number {
  const top = Math.max(...values);
  if (top === Number.NEGATIVE_INFINITY) return top;
  return top + log(values.reduce((sum, v) => sum + exp(v - top), 0));
}

function oddsOf(logs: Float64Array, from: number): Odds<number> {
  const top = Math.max(...logs);
  const weights = logs.map((v) => exp(v - top));
  const total = weights.reduce((sum, w) => sum + w, 0);
  return Array.from(weights, (w, t) => ({ value: from + t, p: w / total }));
}
