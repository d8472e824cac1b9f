import type { Odds, Part } from '../house/house.ts';
import { exp, log } from '../numerics/functions.ts';
import type { NodePair } from './renewing.ts';

/** What a system's evidence says of build years and owners. */
export interface Informed {
  part: Part;
  renewedWith: 'inside' | 'outside' | 'neither';
  /** Build year of index 0 of the passes. */
  from: number;
  /** Likelihood of the evidence for every build year, one row a node of the system's factor. */
  z: Float64Array[];
}

/** Posterior over a part's build years and the pairs of nodes: [pair][year], adds to 1. */
export type YearsAndOwners = Float64Array[];

/** The owners are one for all parts of a house, the build year is each part's own: given a pair of nodes the parts
 * are independent. In logs across systems: a system's evidence may be as small as 1e-60. */
export function yearsAndOwners(
  parts: Part[],
  informed: Informed[],
  pairs: NodePair[],
): Map<Part, YearsAndOwners> {
  const scores = parts.map((part) => {
    const own = informed.filter((i) => i.part === part);
    return pairs.map((pair) =>
      part.built.years.map(({ value, p }) =>
        own.reduce((sum, i) => sum + log(Math.max(likelihood(i, pair, value), 1e-300)), log(p)),
      ),
    );
  });
  // Of each part, the log-likelihood of a pair with the build year summed over.
  const ofPart = scores.map((byPair) => byPair.map(logSum));
  const ofPair = pairs.map((pair, n) => ofPart.reduce((sum, part) => sum + (part[n] ?? 0), log(pair.weight)));
  const all = logSum(ofPair);
  return new Map(
    parts.map((part, k) => [
      part,
      pairs.map((_, n) => {
        const rest = (ofPair[n] ?? 0) - all - (ofPart[k]?.[n] ?? 0);
        return Float64Array.from(scores[k]?.[n] ?? [], (score) => exp(Math.min(0, score + rest)));
      }),
    ]),
  );
}

/** Log-likelihood of all the evidence for every build year from `from` to `asOf`, for each pair of nodes. */
export function evidenceByPair(
  informed: Informed[],
  pairs: NodePair[],
  from: number,
  asOf: number,
): Float64Array[] {
  return pairs.map((pair) =>
    Float64Array.from({ length: asOf - from + 1 }, (_, t) =>
      informed.reduce((sum, i) => sum + log(Math.max(likelihood(i, pair, from + t), 1e-300)), 0),
    ),
  );
}

/** Likelihood of a system's evidence at a pair of nodes and a build year. */
function likelihood(informed: Informed, pair: NodePair, year: number): number {
  const { z, renewedWith, from } = informed;
  return z[nodeIn(renewedWith, z.length, pair)]?.[year - from] ?? 0;
}

/** Which of a system's nodes a pair means. */
export function nodeIn(renewedWith: Informed['renewedWith'], nodes: number, pair: NodePair): number {
  return renewedWith === 'neither' || nodes === 1 ? 0 : pair[renewedWith];
}

/** Odds over the build years alone. */
export function yearOdds(part: Part, joint: YearsAndOwners): Odds<number> {
  return part.built.years.map(({ value }, k) => ({
    value,
    p: toStep(joint.reduce((sum, row) => sum + (row[k] ?? 0), 0)),
  }));
}

/** Odds rounded to a step far below what can be seen: a clue of one system so leaves those that it says nothing of exactly
 * as they were, and what was worked out for them holds. */
export function toStep(p: number): number {
  return Math.round(p / STEP) * STEP;
}

const STEP = 2 ** -46;

function logSum(values: number[]): number {
  const top = Math.max(...values);
  if (top === Number.NEGATIVE_INFINITY) return top;
  return top + log(values.reduce((sum, v) => sum + exp(v - top), 0));
}
