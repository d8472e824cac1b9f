import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { Plan as PlanSchema } from '../../src/plan/plan-schema.ts';
import { datestone } from './run-datestone.ts';

const folder = mkdtempSync(join(tmpdir(), 'datestone-'));
const batch = (name: string, text: string) => {
  const path = join(folder, name);
  writeFileSync(path, text);
  const ran = datestone(['plan', '--batch', path, '--as-of', '2026']);
  const lines = ran.out
    .trimEnd()
    .split('\n')
    .filter((line) => line !== '');
  return { ...ran, rows: lines.map((line): Record<string, unknown> => JSON.parse(line)) };
};

describe('plan --batch', () => {
  it('reads CSV with a byte-order mark, CR LF, quotes and blank cells; bad rows become lines of their own', () => {
    const text = [
      '\uFEFFbuilt,foundation,place,clue',
      '1913,piers,KY,',
      '1925,peers,IA,',
      '"1905-1915","basement-stone",OH,"porcelain-knobs-seen;rewired=1998"',
      '1890,crawl',
      '',
      'unknown,,,',
    ].join('\r\n');
    const { code, rows, err } = batch('a.csv', text);
    expect(code).toBe(0);
    expect(rows).toHaveLength(5);
    expect(rows[0]).toMatchObject({
      schema: 'datestone.plan/1',
      house: { asOf: 2026, place: { state: 'KY' } },
    });
    expect(rows[1]).toMatchObject({ row: 2, error: expect.stringContaining('did you mean piers?') });
    expect(rows[2]).toMatchObject({
      house: { clues: [{ id: 'porcelain-knobs-seen' }, { id: 'rewired', year: 1998 }] },
    });
    expect(rows[3]).toMatchObject({ row: 4, error: expect.stringContaining('2 cells under 4 columns') });
    expect(rows[4]).toMatchObject({ schema: 'datestone.plan/1' });
    expect(err).toContain('2 of 5 rows');
  });

  it('gives back what the person calls each house, the bad rows too', () => {
    const { rows } = batch('e.csv', 'place,id,built\nKY,"mill house, 2nd",1913\nKY,7,soon\nKY,,1913\n');
    expect(PlanSchema.parse(rows[0]).id).toBe('mill house, 2nd');
    expect(rows[1]).toMatchObject({ row: 2, id: '7', error: expect.stringContaining('soon') });
    expect(rows[2]).not.toHaveProperty('id');
    expect(batch('f.ndjson', '{"id": 12, "built": 1913}').rows[0]).toMatchObject({ id: '12' });
  });

  it('reads a quoted line break as part of its cell', () => {
    const { rows } = batch('b.csv', 'place,built\n"K\nY",1913\nKY,1913\n');
    expect(rows).toHaveLength(2);
    expect(rows[0]).toMatchObject({ row: 1, error: expect.stringContaining('place') });
    expect(rows[1]).toMatchObject({ house: { place: { state: 'KY' } } });
  });

  it('reads a JSON object a line; numbers and lists too', () => {
    const lines = [
      JSON.stringify({
        built: 1913,
        foundation: 'piers',
        place: 'KY',
        'rain-hours': 5,
        client: ['children'],
      }),
      '{"built": 1913',
      JSON.stringify({ bult: 1913 }),
      JSON.stringify([1913]),
      JSON.stringify({ built: { year: 1913 } }),
    ];
    const { code, rows } = batch('c.ndjson', `${lines.join('\n')}\n`);
    expect(code).toBe(0);
    expect(rows[0]).toMatchObject({ house: { client: ['children'], visit: { rainHours: 5 } } });
    expect(rows[1]).toMatchObject({ row: 2, error: expect.stringContaining('JSON') });
    expect(rows[2]).toMatchObject({ row: 3, error: expect.stringContaining('did you mean built?') });
    expect(rows[3]).toMatchObject({ row: 4, error: expect.stringContaining('JSON object') });
    expect(rows[4]).toMatchObject({ row: 5, error: expect.stringContaining('text or a number') });
  });

  it('a house planned in a batch is the house planned alone', () => {
    const { out } = batch('d.csv', 'built,foundation,place\n1913,piers,KY\n');
    const alone = datestone([
      'plan',
      '--built',
      '1913',
      '--foundation',
      'piers',
      '--place',
      'KY',
      '--as-of',
      '2026',
      '--json',
    ]);
    expect(out).toBe(alone.out);
  });
});

describe('find --batch', () => {
  it('answers a line for each line, operators and all', () => {
    const path = join(folder, 'queries.txt');
    writeFileSync(path, '\uFEFFknob and tube\r\n\r\n+roof -leak ~2 title:* ^\r\n');
    const { code, out } = datestone(['find', '--batch', path]);
    expect(code).toBe(0);
    const answers = out
      .trimEnd()
      .split('\n')
      .map((line): { query: string; results: { id: string }[] } => JSON.parse(line));
    expect(answers.map((a) => a.query)).toEqual(['knob and tube', '', '+roof -leak ~2 title:* ^']);
    expect(answers[0]?.results[0]?.id).toBe('knob-and-tube');
    expect(answers[1]?.results).toEqual([]);
  });
});
