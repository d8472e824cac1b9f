import { describe, expect, it } from 'vitest';
import { renewingNodes } from '../../planner/belief/renewing.ts';
import { ClassLoss, type Count } from '../../src/calibrate/class-loss.ts';
import { type Design, Parameters, type Process } from '../../src/calibrate/parameters.ts';

/** A made-up system of two materials with everything in it that has a slope. */
const process: Process = {
  shares: {
    new: {
      grade: 'practice',
      source: [],
      years: [1900, 1950, 2000],
      rows: { none: [0.6, 0.1, 0], old: [0.4, 0.6, 0.1], young: [0, 0.3, 0.9] },
    },
    renewal: { grade: 'practice', source: [], years: [1900, 1960], rows: { old: [1, 0.3], young: [0, 0.7] } },
  },
  lives: { old: 50, young: 35 },
  waves: [
    { of: ['none'], from: 1910, to: 1950, rate: 0.05, whole: 1, why: 'first', grade: 'practice', source: [] },
    { of: ['any'], from: 1970, to: 2005, rate: 0.02, whole: 0.4, why: 'all', grade: 'practice', source: [] },
  ],
};
const design: Design = {
  newKnots: [1910, 1940, 1975],
  renewalKnots: [1930, 1980],
  sd: { offset: 1, step: 0.5, renewalOffset: 0.8, renewalStep: 0.4, life: 0.3, rate: 0.5 },
};
const materials = [
  { id: 'old', shape: 3, whole: 0.5 },
  { id: 'young', shape: 2, whole: 0.8 },
];
const counts: Count[] = [
  { built: 2, of: 0, n: 3 },
  { built: 2, of: 1, n: 2 },
  { built: 45, of: 2, n: 4 },
  { built: 80, of: 1, n: 5 },
  { built: 100, of: 2, n: 1 },
];

describe('the slope of the loss', () => {
  it('agrees with central differences in every parameter', () => {
    const loss = new ClassLoss(
      materials,
      [['none'], ['old'], ['young']],
      counts,
      { from: 1900, asOf: 2008 },
      renewingNodes(0.8),
    );
    const parameters = new Parameters(process, design);
    const x = Float64Array.from({ length: parameters.length }, (_, i) => 0.3 * Math.sin(i + 1));
    const value = (at: Float64Array): number =>
      loss.at(parameters.apply(at)).loss + parameters.penalty(at).value;
    const by = parameters.slope(x, loss.at(parameters.apply(x)), ['old', 'young', 'none'], 1900);
    const prior = parameters.penalty(x).slope;
    for (let i = 0; i < x.length; i++) {
      const probe = (d: number): number => value(x.map((v, k) => (k === i ? v + d : v)));
      const slope = (probe(1e-5) - probe(-1e-5)) / 2e-5;
      expect((by[i] ?? 0) + (prior[i] ?? 0)).toBeCloseTo(slope, 5);
    }
  });
});
