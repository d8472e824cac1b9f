import { describe, expect, it } from 'vitest';
import { indexBase } from '../../planner/base-index.ts';
import { believe, type SystemState } from '../../planner/belief/believe.ts';
import { dateHouse } from '../../planner/belief/date-house.ts';
import { CLAMP } from '../../planner/belief/evidence.ts';
import { NOT, notMet } from '../../planner/belief/not-met.ts';
import { planHouse, resolveHouse } from '../../planner/index.ts';
import { base, resolved } from './any-house.ts';

const index = indexBase(base);
const houseOf = (clues: string[], built: number | string = 1927) =>
  resolved({
    asOf: 2026,
    place: 'OH',
    parts: [{ built, foundation: 'basement-block' }],
    clues: clues.map((id) => ({ id })),
  });
const stateOf = (system: string, ...clues: string[]): SystemState => {
  const state = believe(index, houseOf(clues)).find((s) => s.system.id === system);
  if (state === undefined) throw new Error(`no state of ${system}`);
  return state;
};
const totals = (state: SystemState, portion: 'reachable' | 'hidden'): number[] =>
  state.tables[portion].map((row) => row.reduce((sum, p) => sum + p, 0));

/** Clues that read one portion, with no chance so near 0 or 1 that misreading bounds it. */
const plain = base.clues.filter((clue) => {
  const readings = [clue.reads.reachable, clue.reads.hidden].flatMap((r) => (r === undefined ? [] : [r]));
  const chances = readings.flatMap((r) => Object.values(r));
  const bounded = (list: number[]): boolean => Math.min(...list) * CLAMP < Math.max(...list);
  return (
    notMet(clue) !== null &&
    readings.length === 1 &&
    clue.built === undefined &&
    !bounded(chances) &&
    !bounded(chances.map((c) => 1 - c))
  );
});

describe('a clue looked for and not met', () => {
  it('averages with the same clue met to what was believed before, over both outcomes', () => {
    expect(plain.length).toBeGreaterThan(30);
    for (const clue of plain) {
      const before = stateOf(clue.system);
      const reading = clue.reads.reachable ?? clue.reads.hidden ?? {};
      const portion = clue.reads.reachable === undefined ? 'hidden' : 'reachable';
      const chances = before.kernels.ids.map((id) => reading[id] ?? reading.else ?? 0);
      const was = totals(before, portion);
      const odds = was.reduce((sum, p, m) => sum + p * (chances[m] ?? 0), 0);
      const met = totals(stateOf(clue.system, clue.id), portion);
      const missed = totals(stateOf(clue.system, `${NOT}${clue.id}`), portion);
      was.forEach((p, m) => {
        expect(odds * (met[m] ?? 0) + (1 - odds) * (missed[m] ?? 0), `${clue.id} ${m}`).toBeCloseTo(p, 6);
      });
    }
  });

  it('moves a clue of both portions less than two looks would, and towards the others', () => {
    const [before, after] = [stateOf('branch-wiring'), stateOf('branch-wiring', 'not:porcelain-knobs-seen')];
    const knobs = before.kernels.ids.indexOf('knob-and-tube');
    for (const portion of ['reachable', 'hidden'] as const) {
      const [was, is] = [totals(before, portion)[knobs] ?? 0, totals(after, portion)[knobs] ?? 0];
      expect(is).toBeLessThan(was);
      expect(is).toBeGreaterThan(0.05 * was);
    }
  });

  it('lowers the odds of a failure mode that the clue speaks for, and raises what it speaks against', () => {
    for (const clue of base.clues) {
      for (const [failure, ratio] of Object.entries(clue.failures)) {
        const not = notMet(clue)?.failures[failure];
        if (not !== undefined && ratio !== 1) expect((not - 1) * (ratio - 1), clue.id).toBeLessThan(0);
      }
    }
  });

  it('tells of the build year too', () => {
    const middle = (...clues: string[]): number =>
      dateHouse(index, houseOf(clues, 'unknown'), null).likely.middle;
    const speaks = base.clues.filter((c) => c.built !== undefined && notMet(c) !== null);
    expect(speaks.length).toBeGreaterThan(3);
    const garage = speaks.find((c) => c.id.includes('garage')) ?? speaks[0];
    if (garage === undefined) throw new Error('no clue speaks of the build year');
    const [met, missed] = [middle(garage.id), middle(`${NOT}${garage.id}`)];
    expect(met).not.toBe(missed);
    const none = middle();
    expect(Math.min(met, missed)).toBeLessThanOrEqual(none);
    expect(Math.max(met, missed)).toBeGreaterThanOrEqual(none);
  });

  it('is not asked for again, and says what it leaves open', () => {
    const plan = planHouse(base, houseOf(['not:porcelain-knobs-seen']));
    expect(plan.looks.map((l) => l.clue)).not.toContain('porcelain-knobs-seen');
    const why = plan.systems.find((s) => s.system === 'branch-wiring')?.why ?? [];
    expect(why.map((w) => w.say).join(' ')).toContain('It may still be there');
  });

  it('is refused where it can say nothing, or where the clue was met as well', () => {
    const problemsOf = (...clues: string[]): string[] => {
      const read = resolveHouse(base, {
        asOf: 2026,
        parts: [{ built: 1927 }],
        clues: clues.map((id) => ({ id })),
      });
      return 'problems' in read ? read.problems.map((p) => `${p.accepted} ${p.nearest}`) : [];
    };
    expect(problemsOf('not:rewired')[0]).toContain('if it was met');
    expect(problemsOf('not:porcelain-knob-seen')[0]).toContain('not:porcelain-knobs-seen');
    expect(problemsOf('porcelain-knobs-seen', 'not:porcelain-knobs-seen')[0]).toContain(
      'it was met, or it was not',
    );
    expect(problemsOf('not:porcelain-knobs-seen')).toEqual([]);
  });
});
