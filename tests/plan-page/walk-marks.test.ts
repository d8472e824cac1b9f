import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { WalkStop } from '../../planner/plan-types.ts';
import { ACTS, act } from '../../src/plan-page/marks/act.ts';
import { arrange, keysOf } from '../../src/plan-page/marks/arrange.ts';
import {
  NO_MARKS,
  readMarks,
  type WalkMarks,
  walkInput,
  withoutChecks,
} from '../../src/plan-page/marks/walk-marks.ts';

const stop = (place: string, start: number, checks: string[] = [], person = 1): WalkStop => ({
  place,
  title: `The ${place}`,
  person,
  start,
  minutes: 10,
  waits: [],
  today: [],
  checks: checks.map((check) => ({
    check,
    title: `Check ${check}`,
    start,
    minutes: 10,
    for: [],
    gate: [],
    permission: null,
    tools: [],
    waits: check === 're-read' ? [{ after: 'start-heat', minutes: 20, why: 'it warms' }] : [],
    scope: 'optional',
    people: 1,
  })),
});
const PLANNED = [
  stop('arrival', 0, ['sniff']),
  stop('boiler', 12, ['start-heat']),
  stop('attic', 24, ['wires']),
  stop('boiler', 36, ['re-read']),
  stop('street', 48, ['closing']),
];
const pressed = (marks: WalkMarks, ...presses: [(typeof ACTS)[number], string][]): WalkMarks =>
  presses.reduce((now, [what, key]) => act(PLANNED, now, what, key).marks, marks);
const order = (marks: WalkMarks, planned = PLANNED): string[] =>
  arrange(planned, marks).stops.map((s) => s.key);

describe('the marks on a walk', () => {
  it('leave the plan as it is where there are none', () => {
    const own = arrange(PLANNED, NO_MARKS);
    expect(own.changed).toBe(false);
    expect(own.stops.map((s) => s.start)).toEqual([0, 12, 24, 36, 48]);
    expect(keysOf(PLANNED)).toEqual(['arrival', 'boiler', 'attic', 'boiler.2', 'street']);
  });

  it('move a stop, add the times up anew and say what now comes too early', () => {
    const marks = pressed(NO_MARKS, ['earlier', 'boiler.2'], ['earlier', 'boiler.2']);
    expect(order(marks)).toEqual(['arrival', 'boiler.2', 'boiler', 'attic', 'street']);
    const own = arrange(PLANNED, marks);
    expect(own.changed).toBe(true);
    expect(own.stops.map((s) => s.start)).toEqual([0, 10, 20, 30, 40]);
    expect(own.stops[1]?.tooEarly).toEqual(['Check re-read']);
    expect(order(pressed(marks, ['later', 'boiler.2'], ['later', 'boiler.2']))).toEqual(keysOf(PLANNED));
  });

  it('keep a person’s order when a new plan brings a stop or takes one', () => {
    const marks = pressed(NO_MARKS, ['earlier', 'street']);
    const more = [...PLANNED.slice(0, 3), stop('crawl', 30, ['crawl']), ...PLANNED.slice(3)];
    expect(order(marks, more)).toEqual(['arrival', 'boiler', 'attic', 'crawl', 'street', 'boiler.2']);
    expect(order(marks, PLANNED.slice(0, 2))).toEqual(['arrival', 'boiler']);
    expect(order(marks)).toEqual(['arrival', 'boiler', 'attic', 'street', 'boiler.2']);
  });

  it('keep a pinned stop at its place, also where the plan no longer has it', () => {
    const marks = pressed(NO_MARKS, ['pin', 'attic']);
    const own = arrange([stop('arrival', 0), stop('boiler', 10), stop('street', 20)], marks);
    expect(own.stops.map((s) => s.key)).toEqual(['arrival', 'boiler', 'attic', 'street']);
    expect(own.stops[2]).toMatchObject({ pinned: true, gone: true, stop: { title: 'The attic' } });
    expect(walkInput(marks)).toEqual({ pin: ['wires'], drop: [] });
    expect(order(pressed(marks, ['later', 'attic']))).toEqual([
      'arrival',
      'boiler',
      'boiler.2',
      'attic',
      'street',
    ]);
    expect(pressed(marks, ['pin', 'attic'])).toEqual(NO_MARKS);
  });

  it('set a stop aside by its checks, and bring it back', () => {
    const marks = pressed(NO_MARKS, ['aside', 'attic']);
    expect(walkInput(marks)).toEqual({ pin: [], drop: ['wires'] });
    expect(marks.aside[0]?.title).toBe('The attic');
    expect(walkInput(withoutChecks(marks, ['wires'])).drop).toEqual([]);
    expect(pressed(marks, ['back', 'attic'])).toEqual(NO_MARKS);
  });

  it('lose nothing: whatever is pressed, each planned stop is in the walk once, and marks survive being written down', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.constantFrom(...ACTS), fc.constantFrom(...keysOf(PLANNED))), { maxLength: 25 }),
        (presses) => {
          const marks = pressed(NO_MARKS, ...presses);
          expect(order(marks).sort()).toEqual(keysOf(PLANNED).sort());
          expect(readMarks(JSON.stringify(marks))).toEqual(marks);
        },
      ),
    );
  });

  it('are none where what was kept is not marks', () => {
    for (const text of [null, '', '{', '[]', '"a"', '{"done":3,"aside":[1],"pinned":[{"key":1}]}'])
      expect(readMarks(text)).toEqual(NO_MARKS);
  });
});
