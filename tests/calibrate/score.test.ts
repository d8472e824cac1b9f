import { describe, expect, it } from 'vitest';
import type { Form } from '../../planner/house/house.ts';
import { planHouse } from '../../planner/index.ts';
import { AMES_SYSTEMS, type AmesHouse } from '../../src/calibrate/ames.ts';
import { amesSection } from '../../src/calibrate/ames-section.ts';
import { formTable } from '../../src/calibrate/form-table.ts';
import { decadeForecast, decadeFormForecast } from '../../src/calibrate/rivals.ts';
import {
  OURS,
  OURS_FORM_KNOWN,
  type SystemScore,
  scoreAmes,
  TABLE_FORM_KNOWN,
} from '../../src/calibrate/score.ts';
import { base, resolved } from '../planner/any-house.ts';

/** Invented houses; no record stands behind them. */
function house(built: number, form: Form, cladding: string, held: boolean): AmesHouse {
  const others = Object.fromEntries(
    AMES_SYSTEMS.map(({ system, classes }) => [system, Object.keys(classes)[0] ?? null]),
  );
  return {
    built,
    sold: 2008,
    form,
    area: 'A',
    classes: { ...others, cladding },
    held,
    fold: 0,
    areaFold: 0,
  };
}

const fitting = [
  ...Array.from({ length: 6 }, () => house(1972, 'detached', 'hardboard', false)),
  ...Array.from({ length: 3 }, () => house(1975, 'row', 'fiber cement', false)),
  house(1955, 'detached', 'metal', false),
];
const held = [
  house(1974, 'row', 'fiber cement', true),
  house(1974, 'row', 'vinyl', true),
  house(1975, 'detached', 'hardboard', true),
  house(1951, 'detached', 'metal', true),
];
const scores = scoreAmes(base, [...fitting, ...held]);

const scored = (system: string, years: string): SystemScore => {
  const found = scores.find((s) => s.system === system && s.years === years);
  if (found === undefined) throw new Error(`no score of ${system}`);
  return found;
};
const lossOf = (s: SystemScore, forecast: string): number =>
  s.scores.find((x) => x.forecast === forecast)?.logLoss ?? Number.NaN;

/** Mean log loss of cladding as plans have it, one plan a house. */
function fromPlans(rows: AmesHouse[], told: boolean): number {
  const classes = AMES_SYSTEMS.find((s) => s.system === 'cladding')?.classes ?? {};
  const losses = rows.map(({ built, sold, form, classes: recorded }) => {
    const input = { asOf: sold, place: 'IA', parts: [{ built }], ...(told ? { form } : {}) };
    const materials = planHouse(base, resolved(input)).systems.find(
      (s) => s.system === 'cladding',
    )?.materials;
    const members = classes[recorded.cladding ?? ''] ?? [];
    const p = (materials ?? [])
      .filter((m) => members.includes(m.material))
      .reduce((sum, m) => sum + m.reachable, 0);
    return -Math.log(p);
  });
  return losses.reduce((a, b) => a + b, 0) / losses.length;
}

describe('the score on rows kept out', () => {
  it('is that of plans told the year and the state, and of plans told the form too', () => {
    const all = scored('cladding', 'all');
    expect(all.scores.every((s) => s.rows === held.length)).toBe(true);
    expect(lossOf(all, OURS)).toBeCloseTo(fromPlans(held, false), 4);
    expect(lossOf(all, OURS_FORM_KNOWN)).toBeCloseTo(fromPlans(held, true), 4);
    expect(Math.abs(lossOf(all, OURS) - lossOf(all, OURS_FORM_KNOWN))).toBeGreaterThan(0.01);
    const old = scored('cladding', 'before 1961');
    expect(lossOf(old, OURS_FORM_KNOWN)).toBeCloseTo(fromPlans([held[3] as AmesHouse], true), 4);
  });

  it('holds both against the plain decade table, each with its own interval', () => {
    const all = scored('cladding', 'all');
    const table = lossOf(all, 'decade table');
    expect(all.againstDecade.mean).toBeCloseTo(lossOf(all, OURS) - table, 10);
    expect(all.formAgainstDecade.mean).toBeCloseTo(lossOf(all, OURS_FORM_KNOWN) - table, 10);
    for (const { low, mean, high } of [all.againstDecade, all.formAgainstDecade]) {
      expect(low).toBeLessThan(mean);
      expect(mean).toBeLessThan(high);
    }
  });

  it('is the same with the form where no factor of form stands', () => {
    const service = scored('service-equipment', 'all');
    expect(lossOf(service, OURS_FORM_KNOWN)).toBe(lossOf(service, OURS));
    expect(service.formAgainstDecade).toEqual(service.againstDecade);
  });

  it('is told in rows, differences and means', () => {
    const lines = amesSection('', { houses: [...fitting, ...held], hash: 'x' }, scores);
    const rows = lines.filter((l) => l.startsWith('| Cladding | all | 4 |'));
    expect(rows.map((l) => l.split(' | ')[3])).toEqual([
      'in use between years',
      'one average',
      'decade table',
      OURS,
      TABLE_FORM_KNOWN,
      OURS_FORM_KNOWN,
    ]);
    const all = scored('cladding', 'all');
    const part = (100 * all.formAgainstDecade.mean) / lossOf(all, 'decade table');
    const parts = lines.find((l) => l.startsWith('| Cladding | all | ') && l.includes('%'));
    expect(parts?.split(' | ')[4]).toBe(`${part >= 0 ? '+' : '-'}${Math.abs(part).toFixed(1)}%`);
    expect(lines.some((l) => /built all: [+-]\d\.\d{3}; with the form known [+-]\d\.\d{3}\.$/.test(l))).toBe(
      true,
    );
    expect(lines.join('\n')).not.toMatch(/NaN|undefined/);
  });
});

describe('the table by decade and form', () => {
  it('counts the houses of the form, shrunk to the decade by five houses', () => {
    const names = ['hardboard', 'fiber cement', 'metal'];
    const open = decadeForecast(fitting, 'cladding', names)(1978);
    const row = decadeFormForecast(fitting, 'cladding', names)(1978, 'row');
    expect(row['fiber cement']).toBeCloseTo((3 + 5 * (open['fiber cement'] ?? 0)) / 8, 12);
    expect(row.hardboard).toBeCloseTo((5 * (open.hardboard ?? 0)) / 8, 12);
    expect(decadeFormForecast(fitting, 'cladding', names)(1978, 'two-to-four')).toEqual(open);
  });
});

describe('what knowing the form brings in the folds', () => {
  it('is added up over the houses of each form, with its standard error', () => {
    const losses = [
      { built: 1950, form: 'row' as const, ours: 1, knowing: 0.5 },
      { built: 1970, form: 'row' as const, ours: 1, knowing: 2 },
      { built: 1970, form: 'detached' as const, ours: 1, knowing: 1 },
    ];
    const lines = formTable([{ title: 'Toy', stands: ['row'], parcels: losses, areas: losses.slice(0, 1) }]);
    expect(lines.filter((l) => l.startsWith('| Toy'))).toEqual([
      '| Toy | detached | 1 | 0.0 (0.0) |  |  | no |',
      '| Toy | row | 2 | +0.5 (1.1) | -0.5 (0.0) | -0.5 (0.0) | yes |',
      '| Toy | two-to-four | 0 |  |  |  | no |',
    ]);
  });
});
