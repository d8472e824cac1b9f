import { describe, expect, it } from 'vitest';
import { LikeForLike } from '../../planner/belief/like-for-like.ts';

/** Two materials: a machine of 20 years whose kind stays for 60, and one whose kind stays as long as the machine. */
const LAST = 60;
const follow = new LikeForLike(
  [
    { kind: 60, machine: 20, shape: 3 },
    { kind: 20, machine: 20, shape: 3 },
  ],
  LAST,
);
const row = (filled: Record<number, number>): Float64Array =>
  Float64Array.from({ length: LAST + 1 }, (_, t) => filled[t] ?? 0);
const sum = (of: Float64Array | undefined): number => of?.reduce((a, b) => a + b, 0) ?? 0;
const tablesOf = (first: Float64Array, second: Float64Array) => ({
  hidden: [first, second],
  reachable: [first, second],
  same: [first, second],
  joint: [row({}), row({})],
  likelihood: 1,
});

describe('machines of a kind', () => {
  it('follow each other without moving the odds of the kind', () => {
    const { reachable } = follow.machines(tablesOf(row({ 0: 0.4, 30: 0.2 }), row({ 10: 0.4 })));
    expect(sum(reachable[0])).toBeCloseTo(0.6, 12);
    expect(reachable[1]).toEqual(row({ 10: 0.4 }));
    // Half of the machines of the first year are gone by 20 years, nearly all by 60.
    expect(reachable[0]?.[0]).toBeLessThan(0.001);
  });

  it('are as old as 400,000 drawn histories of one stay', () => {
    let seed = 7;
    const next = (): number => {
      seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0;
      return (seed + 0.5) / 2 ** 32;
    };
    // The machine's wear less that which ends the stay, both Weibull of shape 3; ages count in whole years.
    const share = 1 - (20 / 60) ** 3;
    const drawn = new Float64Array(LAST + 1);
    const draws = 400_000;
    for (let i = 0; i < draws; i++) {
      let at = 0;
      for (;;) {
        const age = Math.ceil(20 * (-Math.log(next()) / (share * Math.LN2)) ** (1 / 3));
        if (at + age > LAST) break;
        at += age;
      }
      drawn[at] = (drawn[at] ?? 0) + 1 / draws;
    }
    const { reachable } = follow.machines(tablesOf(row({ 0: 1 }), row({})));
    for (let t = 0; t <= LAST; t++)
      expect(Math.abs((reachable[0]?.[t] ?? 0) - (drawn[t] ?? 0)), `year ${t}`).toBeLessThan(0.001);
  });

  it('tell of the stay what they tell on average, and Bayes brings the rest back', () => {
    // A plate of year 50 in a house that took to the kind in year 0 or in year 50.
    const plate = [row({ 50: 1 }), row({ 50: 1 })];
    const known = { weights: plate, records: [] };
    const stays = follow.stays(known);
    expect(stays[0]?.[50]).toBeGreaterThan(0.8);
    expect(stays[0]?.[0]).toBeGreaterThan(0);
    expect(stays[0]?.[0]).toBeLessThan(stays[0]?.[50] ?? 0);
    const { reachable } = follow.machines(tablesOf(row({ 0: 0.3, 50: 0.7 }), row({})), known);
    expect(reachable[0]?.[50]).toBeCloseTo(1, 12);
  });

  it('weigh the same whatever the year where the weight is of the material alone', () => {
    const flat = [row({}).fill(0.3), row({}).fill(0.7)];
    for (const weights of follow.stays({ weights: flat, records: [] }).slice(0, 1))
      for (const w of weights) expect(w).toBeCloseTo(0.3, 12);
  });
});
