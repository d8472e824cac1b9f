import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Material } from '../../knowledge/schema/material.ts';
import type { State } from '../../knowledge/schema/place.ts';
import { numberOf, readTable, type TableRow, textOf } from '../../src/csv/read-table.ts';
import { readKnowledge } from '../../src/knowledge/read.ts';

/** Values from published sources, one a row, against the knowledge base. See tests/tables/README.md. */
const { base } = readKnowledge(join(import.meta.dirname, '../../knowledge'));

interface Value {
  what: string;
  entry: string;
  field: string;
  low: number;
  high: number;
  source: string;
  locator: string;
}

function valuesOf(file: string): Value[] {
  return readTable(join(import.meta.dirname, file)).map((row: TableRow) => ({
    what: textOf(row, 'what'),
    entry: textOf(row, 'entry'),
    field: textOf(row, 'field'),
    low: numberOf(row, 'low'),
    high: numberOf(row, 'high'),
    source: textOf(row, 'source'),
    locator: textOf(row, 'locator'),
  }));
}

const lives = valuesOf('lives.csv');
const years = valuesOf('years.csv');
const places = valuesOf('places.csv');

function materialOf(id: string): Material {
  const material = base.materials.find((m) => m.id === id);
  if (material === undefined)
    throw new Error(`the table names material "${id}", which the base does not have`);
  return material;
}

function stateOf(code: string): State {
  const state = base.places.states.find((s) => s.code === code);
  if (state === undefined) throw new Error(`the table names state "${code}", which the base does not have`);
  return state;
}

describe('service lives: what was published lies in the range that holds the truth nine times in ten', () => {
  it.each(lives)('$what: $low to $high years ($source)', ({ entry, low, high }) => {
    const { life } = materialOf(entry);
    expect(life.low, `the range of ${entry} begins above what was published`).toBeLessThanOrEqual(high);
    expect(life.high, `the range of ${entry} ends below what was published`).toBeGreaterThanOrEqual(low);
  });
});

describe('years: the base keeps to the years that were published', () => {
  it.each(years)('$what: $low to $high ($source)', ({ entry, field, low, high }) => {
    const year = yearOf(materialOf(entry), field);
    expect(year).toBeGreaterThanOrEqual(low);
    expect(year).toBeLessThanOrEqual(high);
  });
});

describe('places: what towns and counties adopted lies in the span of the state', () => {
  it.each(places)('$what: $low to $high ($source)', ({ entry, field, low, high }) => {
    const [from, to] = spanOf(stateOf(entry), field);
    expect(from).toBeLessThanOrEqual(high);
    expect(to).toBeGreaterThanOrEqual(low);
  });
});

const rules = readTable(join(import.meta.dirname, 'rules.csv')).map((row) => ({
  what: textOf(row, 'what'),
  year: numberOf(row, 'year'),
  words: textOf(row, 'words').split(' '),
  source: textOf(row, 'source'),
}));

describe('rules: the periods tell what was asked from which year on', () => {
  it.each(rules)('$what: $year ($source)', ({ year, words }) => {
    const told = base.eras.flatMap((era) => era.rules).filter((rule) => rule.year === year);
    const text = told.map((rule) => rule.what.toLowerCase()).join(' ');
    for (const word of words) expect(text).toContain(word);
  });
});

describe('the tables themselves', () => {
  it('hold at least sixty outside values, each with its source and where in it', () => {
    const all = [...lives, ...years, ...places];
    expect(all.length).toBeGreaterThanOrEqual(60);
    for (const value of all) {
      expect(value.source.length, value.what).toBeGreaterThan(8);
      expect(value.locator.length, value.what).toBeGreaterThan(2);
      expect(value.low, value.what).toBeLessThanOrEqual(value.high);
    }
  });
});

function yearOf(material: Material, field: string): number | null {
  const { years: y } = material;
  const fields: Record<string, number | null> = {
    'years.first': y.first,
    'years.common': y.common,
    'years.peak.0': y.peak[0],
    'years.peak.1': y.peak[1],
    'years.decline': y.decline,
    'years.last': y.last,
  };
  const value = fields[field];
  if (value === undefined)
    throw new Error(`the table names field "${field}"; use ${Object.keys(fields).join(', ')}`);
  return value;
}

function spanOf(state: State, field: string): [number, number] {
  if (field === 'frostInches') return [state.frostInches[0], state.frostInches[2]];
  if (field === 'termites') return [state.termites, state.termites];
  if (field === 'termiteSpan') return state.termiteSpan;
  if (field === 'decay') return [state.decay[0], state.decay[2]];
  throw new Error(`the table names field "${field}"; use frostInches, termites, termiteSpan or decay`);
}
