import { describe, expect, it } from 'vitest';
import { ODDS_WORDS } from '../../planner/condition/odds-words.ts';
import type { WalkStop } from '../../planner/plan-types.ts';
import { along, floorsOf, oddsStakes } from '../../src/drawings/odds-stakes.ts';
import { reliabilityChart } from '../../src/drawings/reliability.ts';
import { idleSpans, walkLine } from '../../src/drawings/walk-line.ts';
import { worthCurve, worthPoints } from '../../src/drawings/worth-curve.ts';
import { toHtml } from '../../src/markup/html.ts';
import { differenceInWords, readCalibration, standing } from '../../src/site/calibration.ts';
import { demo } from '../../src/site/demo-plan.ts';
import { readReliability } from '../../src/site/reliability.ts';
import { readReport } from '../../src/site/report.ts';

const count = (svg: string, cls: string): number => svg.split(`class="${cls}"`).length - 1;

describe('the walk as a strip of hours', () => {
  const { walk } = demo.plan;
  const people = demo.plan.house.visit.team;
  const svg = toHtml(walkLine(walk, people, 'The walk'));

  it('draws every stop, cut at the hours it runs over, with a triangle for each check that has a gate', () => {
    const pieces = walk.stops.map((s) => Math.ceil((s.start + s.minutes) / 60) - Math.floor(s.start / 60));
    expect(count(svg, 'cut')).toBe(pieces.reduce((sum, n) => sum + n, 0));
    const checks = walk.stops.flatMap((s) => s.checks);
    expect(count(svg, 'gate-mark')).toBe(checks.filter((c) => c.gate.length > 0).length);
    expect(count(svg, 'again-mark')).toBe(checks.filter((c) => c.waits.length > 0).length);
    expect(svg).not.toMatch(/NaN|undefined|Infinity/);
  });

  it('stands with no stops at all, and gives each of two people a lane', () => {
    expect(toHtml(walkLine({ ...walk, stops: [] }, 1, 'None'))).not.toMatch(/NaN|Infinity/);
    const second: WalkStop[] = walk.stops.map((s) => ({ ...s, person: 2 }));
    const low = toHtml(walkLine({ ...walk, stops: second }, 2, 'Two'));
    expect(low).toContain('>B<');
  });
});

describe('standing idle', () => {
  const check = (start: number, minutes: number): WalkStop['checks'][number] => ({
    check: `at-${start}`,
    title: 'A check',
    start,
    minutes,
    for: [],
    gate: [],
    permission: null,
    tools: [],
    waits: [],
    scope: 'optional',
    people: 1,
  });
  const stop: WalkStop = {
    place: 'cellar',
    title: 'Cellar',
    person: 1,
    start: 50,
    minutes: 25,
    waits: [{ minutes: 9, why: 'the boiler has to run' }],
    today: [],
    checks: [check(50, 4), check(63, 5), check(68, 7)],
  };

  it('is the gap between checks, and only at a stop that says so', () => {
    expect(idleSpans(stop)).toEqual([{ from: 54, to: 63 }]);
    expect(idleSpans({ ...stop, waits: [] })).toEqual([]);
  });

  it('is drawn as a broken line, cut at the hour', () => {
    const svg = toHtml(walkLine({ ...demo.plan.walk, stops: [stop] }, 1, 'One'));
    expect(count(svg, 'idle-line')).toBe(2);
  });
});

describe('what a visit brings to light, by its minutes', () => {
  const walk = {
    ...demo.plan.walk,
    feasible: true,
    minutes: 240,
    worth: 200,
    curve: [
      { minutes: 220, worth: 180 },
      { minutes: 230, worth: 190 },
      { minutes: 240, worth: 200 },
    ],
    more: { minutes: 40, worth: 20, checks: ['a'] },
  };

  it('counts the visit as all, and goes on to more time', () => {
    expect(worthPoints(walk).map((p) => [p.minutes, p.share, p.is])).toEqual([
      [220, 0.9, 'always done'],
      [230, 0.95, null],
      [240, 1, 'this visit'],
      [280, 1.1, 'with more time'],
    ]);
    const svg = toHtml(worthCurve(worthPoints(walk), 'Worth'));
    expect(svg).not.toMatch(/NaN|undefined|Infinity/);
    expect(svg).toContain('280 min');
  });

  it('says nothing where the minutes do not hold the scope, and stands with one point', () => {
    expect(worthPoints({ ...walk, feasible: false })).toEqual([]);
    const one = worthPoints({ ...walk, curve: [{ minutes: 240, worth: 200 }], more: null });
    expect(toHtml(worthCurve(one, 'Worth'))).not.toMatch(/NaN|Infinity/);
  });
});

describe('odds against stakes', () => {
  const floors = floorsOf(demo.plan.risks);
  const shown = floors.flatMap((f) => f.risks);

  it('numbers the weightiest risks once each, with the range around the best guess', () => {
    expect(shown.map((s) => s.number)).toEqual(shown.map((_, i) => i + 1));
    expect(new Set(shown.map((s) => `${s.risk.failure} ${s.risk.part}`)).size).toBe(shown.length);
    const svg = toHtml(oddsStakes(floors, 'Odds'));
    expect(count(svg, 'range-line')).toBe(shown.length);
    expect(svg).not.toMatch(/NaN|undefined|Infinity/);
    for (const { risk } of shown) {
      expect(along(risk.low)).toBeLessThanOrEqual(along(risk.probability));
      expect(along(risk.high)).toBeGreaterThanOrEqual(along(risk.probability));
    }
  });

  it('has a scale on which each word is as wide as the next, rising throughout', () => {
    const edges = ODDS_WORDS.slice(0, -1).map((band) => along(band.below));
    const widths = edges.slice(1).map((x, i) => x - (edges[i] ?? 0));
    for (const width of widths) expect(width).toBeCloseTo(widths[0] ?? 0, 6);
    for (let p = 0; p < 1; p += 0.01) expect(along(p + 0.01)).toBeGreaterThan(along(p));
  });
});

describe('the calibration page', () => {
  const text = [
    '# Calibration',
    '',
    'Made by hand.',
    '',
    'What was tested: **one** thing,',
    'in one town.',
    '',
    '- *one average*: shares',
    '  over rows.',
    '',
    '| system | built | rows | forecast | log loss | Brier | ours less decade table |',
    '| --- | --- | --: | --- | --: | --: | --- |',
    '| Cladding | all | 622 | one average | 1.881 | 0.806 |  |',
    '| Cladding | all | 622 | Datestone | 1.376 | 0.618 | +0.024 (+0.003 to +0.044) |',
    '',
    '| cladding | IA | 1417 | 4e3d | c5ca |',
  ].join('\n');

  const form = { mean: -0.03, low: -0.05, high: -0.01 };
  const scored = (title: string, low: number, high: number, formKnown?: typeof form): unknown => ({
    title,
    years: 'all',
    scores: [
      { forecast: 'one average', rows: 622, logLoss: 1.881, brier: 0.806 },
      { forecast: 'Datestone', rows: 622, logLoss: 1.376, brier: 0.618 },
    ],
    againstDecade: { mean: (low + high) / 2, low, high },
    ...(formKnown === undefined ? {} : { formAgainstDecade: formKnown }),
  });

  it('takes the scores as the fitting wrote them, and refuses a file that lacks one', () => {
    expect(readCalibration({ scores: [scored('Cladding', 0.002, 0.046, form)] })).toEqual([
      {
        system: 'Cladding',
        built: 'all',
        rows: 622,
        scores: [
          { forecast: 'one average', logLoss: 1.881, brier: 0.806 },
          { forecast: 'Datestone', logLoss: 1.376, brier: 0.618 },
        ],
        against: { mean: 0.024, low: 0.002, high: 0.046 },
        formAgainst: { mean: -0.03, low: -0.05, high: -0.01 },
      },
    ]);
    expect(differenceInWords({ mean: 0.024, low: -0.002, high: 0.046 })).toBe('+0.024 (-0.002 to +0.046)');
    expect(() => readCalibration({ scores: [{ title: 'Cladding', years: 'all' }] })).toThrow(
      'run the calibration',
    );
  });

  it('calls a system better or worse than the table only where the whole interval is', () => {
    const systems = readCalibration({
      scores: [
        scored('Heating', -0.05, -0.01),
        scored('Cladding', 0.01, 0.09, form),
        scored('Cooling', -0.01, 0.01),
      ],
    });
    expect(standing(systems, (s) => s.against)).toEqual({
      better: ['heating (all years)'],
      worse: ['cladding (all years)'],
      alike: ['cooling (all years)'],
    });
    expect(standing(systems, (s) => s.formAgainst)).toEqual({
      better: ['cladding (all years)'],
      worse: [],
      alike: [],
    });
  });

  it('says what was tested in the words of the fitting, section by section, with its tables', () => {
    const more = `${text}\n\n## What stands on what\nA word.\n\n| system | rows |\n| --- | --: |\n| roof | 12 |\n`;
    const sections = readReport(more);
    expect(sections.map((s) => s.title)).toEqual([null, 'What stands on what']);
    expect(sections[0]?.blocks.slice(0, 2)).toEqual([
      { kind: 'paragraph', text: 'What was tested: one thing, in one town.' },
      { kind: 'list', items: ['one average: shares over rows.'] },
    ]);
    expect(sections[1]?.blocks).toEqual([
      { kind: 'paragraph', text: 'A word.' },
      { kind: 'table', head: ['system', 'rows'], right: [false, true], rows: [['roof', '12']] },
    ]);
  });

  it('draws each bin where it was said and came true, and takes no half-written bin', () => {
    const bin = { n: 62, forecast: 0.25, observed: 0.3, low: 0.2, high: 0.42 };
    const read = readReliability({
      data: 'abc',
      systems: [{ title: 'Cladding', years: 'all', error: 0.021, bins: [bin, { n: 3 }] }, { title: 'Roof' }],
    });
    expect(read).toEqual([{ title: 'Cladding, built: all', error: 0.021, bins: [bin] }]);
    const svg = toHtml(reliabilityChart(read[0]?.bins ?? [], 'Said'));
    expect(svg).toContain('cx="107.5" cy="180.2"');
    expect(svg).not.toMatch(/NaN|undefined/);
    expect(readReliability(null)).toEqual([]);
  });
});
