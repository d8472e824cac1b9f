import { describe, expect, it } from 'vitest';
import { RULE_TOPICS, rulesInForce } from '../../knowledge/schema/rule-then.ts';
import { base } from './base.ts';

const inForce = (year: number): string[] => rulesInForce(base.rulesThen, year).map((rule) => rule.id);

describe('rules and customs then', () => {
  it('has something to say for every topic and every year a house may carry', () => {
    for (const topic of RULE_TOPICS)
      expect(base.rulesThen.filter((r) => r.topic === topic).length, topic).toBeGreaterThan(0);
    for (let year = 1850; year <= 1990; year += 5) expect(inForce(year).length).toBeGreaterThanOrEqual(5);
  });

  it('knows what a house of 1925 was built under', () => {
    const then = inForce(1925);
    for (const id of [
      'insurers-wiring-rules',
      'two-slot-outlets-usual',
      'water-pipe-alone',
      'fuses-of-any-size',
      'plain-glass-usual',
      'no-escape-window-rule',
      'no-smoke-alarm-rule',
      'balloon-framing-usual',
      'lead-in-paint',
    ])
      expect(then).toContain(id);
    for (const id of ['ground-everywhere', 'ground-fault-kitchen', 'stairs-now', 'wired-smoke-alarms'])
      expect(then).not.toContain(id);
  });

  it.each([
    { rule: 'aluminum-branch-years', before: 1964, during: 1970, after: 1974 },
    { rule: 'fused-neutral-usual', before: 1890, during: 1920, after: 1929 },
    { rule: 'rail-gaps-six-inches', before: 1978, during: 1985, after: 1992 },
    { rule: 'one-smoke-alarm', before: 1975, during: 1980, after: 1990 },
  ])('$rule begins and ends', ({ rule, before, during, after }) => {
    expect(inForce(before)).not.toContain(rule);
    expect(inForce(during)).toContain(rule);
    expect(inForce(after)).not.toContain(rule);
  });

  it('has one rule of a kind at a time where one took the place of another', () => {
    const ladders = [
      ['rail-gaps-nine-inches', 'rail-gaps-six-inches', 'rail-gaps-four-inches'],
      ['no-escape-window-rule', 'escape-window-1964', 'escape-window-1976'],
      ['stairs-by-hand-rule', 'stairs-eight-by-nine', 'stairs-now'],
      ['outlets-few', 'outlets-every-twenty-feet', 'outlets-every-twelve-feet'],
    ];
    for (const ladder of ladders)
      for (const year of [1925, 1950, 1965, 1977, 1985, 2000])
        expect(
          inForce(year).filter((id) => ladder.includes(id)).length,
          `${ladder[0]} ${year}`,
        ).toBeLessThanOrEqual(1);
  });
});
