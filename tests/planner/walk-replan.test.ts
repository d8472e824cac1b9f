import { describe, expect, it } from 'vitest';
import { indexBase } from '../../planner/base-index.ts';
import { believe } from '../../planner/belief/believe.ts';
import { judge } from '../../planner/condition/condition.ts';
import type { HouseInput } from '../../planner/house/house.ts';
import { replan, type WalkEvent, type WalkState } from '../../planner/walk/replan.ts';
import { makeWalk } from '../../planner/walk/walk.ts';
import { base, resolved } from './any-house.ts';

const index = indexBase(base);
const input: HouseInput = {
  asOf: 2026,
  place: 'KY',
  parts: [{ built: 1913, foundation: 'piers', storeys: 2 }],
  visit: { minutes: 260, team: 2, outdoorF: 50 },
};
const house = resolved(input);
const conditions = judge(index, house, believe(index, house));
const shown = makeWalk(index, house, conditions);
const fresh: WalkState = { shown, now: 0, done: [], shut: [] };
const rows = (state: WalkState) =>
  state.shown.stops.flatMap((s) => s.checks.map((c) => ({ ...c, person: s.person })));

/** The first checks of each person, done as planned, save that one takes `over` minutes more. */
function doneUntil(minute: number, over = 0): WalkEvent[] {
  const early = shown.stops.flatMap((s) =>
    s.checks
      .filter((c) => c.start + c.minutes <= minute)
      .map((c) => ({
        kind: 'done' as const,
        check: c.check,
        person: s.person,
        start: c.start,
        minutes: c.minutes,
      })),
  );
  return early.map((e, i) => (i === early.length - 1 ? { ...e, minutes: e.minutes + over } : e));
}

describe('planning the rest of a walk anew', () => {
  it('keeps everything if all goes as shown', () => {
    const { state, changes } = replan(index, house, conditions, fresh, doneUntil(60));
    expect(changes.filter((c) => c.what === 'left out')).toEqual([]);
    expect(state.shown.minutesUsed).toBeLessThanOrEqual(260);
  });

  it('keeps what is done with its people and times', () => {
    const events = doneUntil(60, 7);
    const { state } = replan(index, house, conditions, fresh, events);
    for (const e of events)
      if (e.kind === 'done')
        expect(rows(state)).toContainEqual(
          expect.objectContaining({ check: e.check, person: e.person, start: e.start, minutes: e.minutes }),
        );
  });

  it('starts nothing before now, and nothing twice', () => {
    const events = doneUntil(60, 25);
    const { state } = replan(index, house, conditions, fresh, events);
    const done = new Set(state.done.map((d) => d.check));
    for (const row of rows(state))
      if (!done.has(row.check)) expect(row.start).toBeGreaterThanOrEqual(state.now - 0.06);
    expect(new Set(rows(state).map((r) => r.check)).size).toBe(rows(state).length);
  });

  it('leaves a closed crawl space out with all that is done in it, and says why', () => {
    const { state, changes } = replan(index, house, conditions, fresh, [
      ...doneUntil(40),
      { kind: 'closed', check: 'enter-crawl', at: 45, why: 'standing water' },
    ]);
    const crawl = new Set<string>(base.checks.filter((c) => c.stop === 'crawl').map((c) => c.id));
    expect(rows(state).filter((r) => crawl.has(r.check))).toEqual([]);
    expect(changes.find((c) => c.check === 'enter-crawl')).toMatchObject({
      what: 'left out',
      why: 'standing water',
    });
    expect(changes.find((c) => c.check === 'pier-look')?.why).toContain('standing water');
    expect(state.shown.leftOut.find((l) => l.check === 'pier-look')?.again).toBe(true);
  });

  it('fits a late start and a refusal into the same end, required work kept', () => {
    const { state, changes } = replan(index, house, conditions, fresh, [
      { kind: 'late', minutes: 25 },
      { kind: 'refused', check: 'probe-sills', at: 25 },
    ]);
    expect(state.shown.feasible).toBe(true);
    expect(state.shown.minutesUsed).toBeLessThanOrEqual(260);
    expect(changes.some((c) => c.what === 'left out')).toBe(true);
    const probable = (why: string): boolean => !why.startsWith('ask first');
    const left = new Set(changes.flatMap((c) => (c.what === 'left out' && probable(c.why) ? [c.check] : [])));
    for (const check of base.checks) if (check.scope !== 'optional') expect(left.has(check.id)).toBe(false);
  });

  it('says so when the required scope no longer fits', () => {
    const { state } = replan(index, house, conditions, fresh, [{ kind: 'late', minutes: 200 }]);
    expect(state.shown.feasible).toBe(false);
    expect(state.shown.minutesNeeded).toBeGreaterThan(260);
  });

  it('weighs a clue', () => {
    const after = resolved({ ...input, clues: [{ id: 'porcelain-knobs-seen' }] });
    const { state } = replan(index, after, judge(index, after, believe(index, after)), fresh, [
      ...doneUntil(60),
      { kind: 'clue', at: 62 },
    ]);
    expect(state.shown.minutesUsed).toBeLessThanOrEqual(260);
    expect(rows(state).length).toBeGreaterThan(60);
  });
});
