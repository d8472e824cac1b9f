import { describe, expect, it } from 'vitest';
import { ODDS_WORDS } from '../../planner/condition/odds-words.ts';
import type { WalkStop } from '../../planner/plan-types.ts';
import { along, floorsOf, oddsStakes } from '../../src/drawings/odds-stakes.ts';
import { walkLine } from '../../src/drawings/walk-line.ts';
import { toHtml } from '../../src/markup/html.ts';
import { calibrationWords, readCalibration } from '../../src/site/calibration.ts';
import { demo } from '../../src/site/demo-plan.ts';

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

  it('shows the figures of the table as they are, and no other row', () => {
    expect(readCalibration(text)).toEqual([
      {
        system: 'Cladding',
        built: 'all',
        rows: 622,
        scores: [
          { forecast: 'one average', logLoss: 1.881, brier: 0.806 },
          { forecast: 'Datestone', logLoss: 1.376, brier: 0.618 },
        ],
        against: '+0.024 (+0.003 to +0.044)',
      },
    ]);
  });

  it('says what was tested in the words of the fitting', () => {
    expect(calibrationWords(text)).toEqual({
      paragraphs: ['What was tested: one thing, in one town.'],
      rivals: ['one average: shares over rows.'],
    });
  });
});
