import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { State } from '../../knowledge/schema/place.ts';
import { FOUNDATIONS } from '../../knowledge/schema/words.ts';
import { readKnowledge } from '../../src/knowledge/read.ts';

const { base } = readKnowledge(join(import.meta.dirname, '../../knowledge'));
const { places } = base;
const codes = new Set(places.states.map((s) => s.code));

describe('places', () => {
  it('are the fifty states and DC, each once', () => {
    expect(codes.size).toBe(51);
    expect(codes.has('DC')).toBe(true);
  });

  it('grade every field, and name only sources that the base has', () => {
    const sources = new Set(base.sources.map((s) => s.id));
    for (const field of Object.keys(State.shape).filter(
      (key) => !['code', 'name', 'corrected'].includes(key),
    )) {
      const backing = places.fields[field];
      expect(backing, field).toBeDefined();
      expect(['measured', 'published', 'practice', 'memory']).toContain(backing?.grade);
      expect(backing?.source.length, `${field} has a source`).toBeGreaterThan(0);
      for (const id of backing?.source ?? []) expect(sources, `${field} names ${id}`).toContain(id);
    }
    for (const { code, corrected } of places.states)
      for (const [field, ids] of Object.entries(corrected)) {
        expect(Object.keys(State.shape), code).toContain(field);
        for (const id of ids) expect(sources, `${code} ${field}`).toContain(id);
      }
    for (const id of [...places.stock.source, ...places.foundations.source]) expect(sources).toContain(id);
  });

  it('hold spans that rise and bands that lie in them', () => {
    for (const state of places.states) {
      expect(state.decay[0], state.code).toBeLessThanOrEqual(state.decay[1]);
      expect(state.decay[1], state.code).toBeLessThanOrEqual(state.decay[2]);
      expect(state.frostInches[0], state.code).toBeLessThanOrEqual(state.frostInches[1]);
      expect(state.frostInches[1], state.code).toBeLessThanOrEqual(state.frostInches[2]);
      expect(state.termiteSpan[0], state.code).toBeLessThanOrEqual(state.termites);
      expect(state.termiteSpan[1], state.code).toBeGreaterThanOrEqual(state.termites);
    }
  });

  it('send every ZIP prefix to a state, and known ones to the right one', () => {
    for (const area of Object.values(places.zip3)) expect(codes).toContain(area.state);
    expect(['402', '100', '606', '995'].map((zip) => places.zip3[zip]?.state)).toEqual([
      'KY',
      'NY',
      'IL',
      'AK',
    ]);
  });

  it('hold houses by vintage for every state; each row adds to 1', () => {
    const { vintages, byState } = places.stock;
    for (const code of codes) {
      const row = byState[code] ?? [];
      expect(row, code).toHaveLength(vintages.length);
      expect(row.reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 6);
    }
    vintages.slice(1).forEach(([from], i) => {
      expect(from).toBe((vintages[i]?.[1] ?? 0) + 1);
    });
  });

  it('hold foundations for the zone of every state and ZIP and for the nation; each row adds to 1', () => {
    const { kinds, vintages, byZone, rowByZone } = places.foundations;
    expect(kinds).toEqual([...FOUNDATIONS]);
    const zones = [...places.states, ...Object.values(places.zip3)].map((place) => place.zone);
    for (const tables of [byZone, rowByZone])
      for (const zone of new Set([...zones, 'ALL'])) {
        const table = tables[zone] ?? [];
        expect(table, zone).toHaveLength(vintages.length);
        for (const row of table) {
          expect(row).toHaveLength(kinds.length);
          expect(row.reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 6);
        }
      }
  });

  it('weigh under 60 KB gzipped', () => {
    expect(gzipSync(JSON.stringify(places)).length).toBeLessThan(60 * 1024);
  });

  it('put old houses of the Gulf on piers and crawl spaces, of the north on basements', () => {
    const share = (zone: string, wanted: (kind: string) => boolean): number => {
      const { kinds, byZone } = places.foundations;
      const row = byZone[zone]?.[0] ?? [];
      return kinds.reduce((sum, kind, i) => sum + (wanted(kind) ? (row[i] ?? 0) : 0), 0);
    };
    expect(share('2A', (kind) => kind === 'piers' || kind === 'crawl')).toBeGreaterThan(0.5);
    expect(share('6A', (kind) => kind.startsWith('basement'))).toBeGreaterThan(0.5);
  });
});
