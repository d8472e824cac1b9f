import { describe, expect, it } from 'vitest';
import { datestone } from './run-datestone.ts';

describe('look-ups', () => {
  it('find --json gives id, kind, title and score, best first', () => {
    const { code, out } = datestone(['find', 'knob', 'and', 'tube', 'wiring', '--json']);
    expect(code).toBe(0);
    const answer: { query: string; results: { id: string; kind: string; title: string; score: number }[] } =
      JSON.parse(out);
    expect(answer.query).toBe('knob and tube wiring');
    expect(answer.results[0]).toMatchObject({
      id: 'knob-and-tube',
      kind: 'material',
      title: 'Knob-and-tube wiring',
    });
    const scores = answer.results.map((result) => result.score);
    expect(scores).toEqual([...scores].sort((a, b) => b - a));
  });

  it('show prints an entry, as text and as JSON', () => {
    expect(datestone(['show', 'knob-and-tube']).out).toContain('Knob-and-tube wiring');
    const { id, entries } = JSON.parse(datestone(['show', 'material/knob-and-tube', '--json']).out);
    expect(id).toBe('knob-and-tube');
    expect(entries).toHaveLength(1);
    expect(entries[0]).toMatchObject({ kind: 'material', system: 'branch-wiring' });
  });

  it('base --json counts by kind and lists errors', () => {
    const { base, counts, errors } = JSON.parse(datestone(['base', '--json']).out);
    expect(base).toMatch(/^[0-9a-f]{16}$/);
    expect(counts.places).toBe(51);
    expect(counts.systems).toBeGreaterThanOrEqual(30);
    expect(errors).toEqual([]);
  });

  it('clues lists ids with their plain words; dated ones want a year', () => {
    const { out } = datestone(['clues', '--system', 'branch-wiring']);
    expect(out).toContain('porcelain-knobs-seen');
    expect(out).toContain('rewired=YEAR');
  });

  it('place names the grade of every figure', () => {
    const { out } = datestone(['place', '40202']);
    expect(out).toContain('Kentucky');
    expect(out).toContain('from memory');
    expect(out).toContain('National Oceanic and Atmospheric Administration');
  });

  it('place --json gives every field with value, grade and source, the decay index among them', () => {
    const answer: {
      decayIndex: number;
      decayBand: string;
      fields: Record<string, { value: unknown; say: string; grade: string; source: string[] }>;
      stations: { name: string; km: number | null; decayIndex: number }[];
      sources: { id: string }[];
    } = JSON.parse(datestone(['place', '30320', '--json']).out);
    expect(answer.decayIndex).toBeGreaterThan(70);
    expect(answer.decayBand).toBe('high');
    expect(answer.fields.decayIndex?.value).toBe(answer.decayIndex);
    expect(answer.stations[0]?.km).toBeLessThan(40);
    const known = new Set(answer.sources.map((s) => s.id));
    for (const [field, { say, grade, source }] of Object.entries(answer.fields)) {
      expect(say, field).not.toBe('');
      expect(grade, field).toMatch(/^(measured|published|practice|memory)$/);
      expect(source.length, field).toBeGreaterThan(0);
      for (const id of source) expect(known).toContain(id);
    }
    const state = JSON.parse(datestone(['place', 'OR', '--json']).out);
    expect(state.decayIndex).toBe(state.fields.decay.value[1]);
  });
});
