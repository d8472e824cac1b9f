import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { anywhereIn } from '../../planner/places/here.ts';
import { stateMap } from '../../src/drawings/state-map.ts';
import { toHtml } from '../../src/markup/html.ts';
import { readCladdings } from '../../src/places/claddings.ts';
import { readCountyRows } from '../../src/places/county-table.ts';
import { readStations } from '../../src/places/normals.ts';
import { placeFields } from '../../src/places/place-fields.ts';
import { claddingLines, foundationRows, movedBy, stationLines } from '../../src/places/place-sheet.ts';
import { base } from './base.ts';

const FOLDER = join(import.meta.dirname, '../../knowledge/places');
const { states } = base.places;
const stations = readStations(join(FOLDER, 'normals.csv'));
const NEVER = /\b(absent|cleared|safe|up to code|proves|not needed|no risk)\b/i;

describe.each(states)('the sheet of $name', (state) => {
  const fields = placeFields(base, anywhereIn(state));

  it('tells every field in words, with a source and a grade', () => {
    expect(fields.length).toBeGreaterThanOrEqual(19);
    for (const f of fields) {
      expect(f.say.length, f.field).toBeGreaterThan(3);
      expect(f.source.length, f.field).toBeGreaterThan(0);
      for (const id of f.source)
        expect(
          base.sources.some((s) => s.id === id),
          id,
        ).toBe(true);
      expect(['measured', 'published', 'practice', 'memory']).toContain(f.grade);
      expect(f.say).not.toMatch(NEVER);
    }
  });

  it('asks to check what is from memory, and to test for radon', () => {
    for (const f of fields.filter(
      (x) => x.grade === 'memory' && /frost|expansive|quake|snow|hurricane/.test(x.field),
    ))
      expect(f.say, f.field).toMatch(/check/);
    expect(fields.find((f) => f.field === 'radonZone')?.say).toContain('test whatever the zone');
  });

  it('has counties, claddings, foundations, and stations in the state or near', () => {
    const counties = readCountyRows(FOLDER, state.code);
    expect(counties.length).toBeGreaterThan(0);
    for (const c of counties) expect([1, 2, 3]).toContain(c.radon);
    for (const { say } of claddingLines(readCladdings(FOLDER, state.code))) {
      const shares = [...say.matchAll(/ (\d+)(?:,|$)/g)].map(([, n]) => Number(n));
      expect(shares.length).toBeGreaterThan(0);
      expect(shares.reduce((a, b) => a + b, 0)).toBeLessThanOrEqual(102);
    }
    for (const row of foundationRows(base, state))
      expect(row.shares.reduce((sum, s) => sum + s.share, 0)).toBeCloseTo(1, 6);
    if (state.code !== 'DC') expect(stationLines(stations, state.code).length).toBeGreaterThan(0);
  });
});

describe('what a state moves', () => {
  it('names the failure modes of each factor with the odds that the planner uses', () => {
    const vermont = states.find((s) => s.code === 'VT');
    if (vermont === undefined) throw new Error('no Vermont');
    const moved = movedBy(base, vermont);
    expect(moved.find((m) => m.factor === 'frost')?.failures.map((f) => f.id)).toContain('frost-heave');
    expect(moved.find((m) => m.factor === 'termites')?.odds).toBeLessThan(1);
    expect(moved.find((m) => m.factor === 'freeze-thaw')?.odds).toBeGreaterThan(1);
  });
});

describe('the map', () => {
  const text = toHtml(
    stateMap(
      states.map(({ code, name }) => ({ code, name, href: `/places/${code}/`, hatch: 'dots', says: 'x' })),
      'map',
      'A map',
    ),
  );

  it('draws and links every state once', () => {
    const links = [...text.matchAll(/<a href="\/places\/([A-Z]{2})\//g)].map(([, code]) => code);
    expect([...links].sort()).toEqual(states.map((s) => s.code));
    expect(text.match(/<path d="M[^"]+Z"/g)?.length).toBe(states.length);
    expect(text).not.toMatch(/NaN|undefined|Infinity/);
  });

  it('is small enough for a page', () => {
    expect(text.length).toBeLessThan(70_000);
  });

  it('puts Florida below Georgia and Maine right of Ohio', () => {
    const at = (code: string): { x: number; y: number } => {
      const match = new RegExp(`<text x="([\\d.]+)" y="([\\d.]+)"[^>]*>${code}<`).exec(text);
      return { x: Number(match?.[1]), y: Number(match?.[2]) };
    };
    expect(at('FL').y).toBeGreaterThan(at('GA').y);
    expect(at('ME').x).toBeGreaterThan(at('OH').x);
  });
});
