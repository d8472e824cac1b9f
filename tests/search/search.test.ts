import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { oddsWeight } from '../../src/search/house-odds.ts';
import { nearTerms } from '../../src/search/near.ts';
import { search } from '../../src/search/search.ts';
import { file, idsFor, searcher } from './whole-base.ts';

const own: [string, string][] = parse(readFileSync(join(import.meta.dirname, 'own-queries.yaml'), 'utf8'));

describe('search', () => {
  it('finds a thing by its name, by a name of the trade and by its plural', () => {
    expect(idsFor('knob and tube wiring')[0]).toBe('knob-and-tube');
    expect(idsFor('K&T')).toContain('knob-and-tube');
    expect(idsFor('asphalt shingles')).toContain('asphalt-shingle');
  });

  it('forgives a slip and takes a beginning', () => {
    expect(idsFor('knob and tbue')).toContain('knob-and-tube');
    expect(idsFor('polybutilene')).toContain('polybutylene-supply');
    expect(idsFor('knob and tub')).toContain('knob-and-tube');
    expect(idsFor('galvan')).toContain('galvanized-supply');
  });

  it('answers its own written questions among the first five', () => {
    const missed = own.filter(([query, id]) => !idsFor(query).includes(id)).map(([query]) => query);
    expect(own.length).toBeGreaterThanOrEqual(40);
    expect(missed.length / own.length, `not answered: ${missed.join('; ')}`).toBeLessThanOrEqual(0.1);
  });

  it('gives every entry first place, or nearly, when asked for its own title', () => {
    const kinds = ['material', 'failure', 'system'] as const;
    const entries = file.entries.filter((e) => kinds.some((kind) => kind === e.kind));
    const missed = entries.filter((e) => !idsFor(e.title, 3).includes(e.id)).map((e) => e.id);
    expect(missed.length / entries.length, `not among the first three: ${missed.join(', ')}`).toBeLessThan(
      0.03,
    );
  });

  it('answers: how soon, the check that confirms it and which words were met', () => {
    const [first] = search(searcher, 'chimny leaning');
    expect(first).toMatchObject({
      id: 'leaning-chimney',
      soon: 'settle-first',
      odds: null,
      moved: null,
      matched: ['chimny', 'leaning'],
    });
    const check = file.entries.find((e) => e.kind === 'check' && e.id === first?.check?.id);
    expect(check?.title).toBe(first?.check?.title);
  });

  it('orders by score and keeps to the limit', () => {
    const results = search(searcher, 'water leak basement wall', { limit: 7 });
    expect(results.length).toBe(7);
    const scores = results.map((r) => r.score);
    expect(scores).toEqual([...scores].sort((a, b) => b - a));
  });

  it('has sensible answers for two letters, and none for nonsense', () => {
    expect(idsFor('co').length).toBeGreaterThan(0);
    expect(idsFor('ac').length).toBeGreaterThan(0);
    expect(idsFor('zzqqxx')).toEqual([]);
    expect(idsFor('')).toEqual([]);
    expect(idsFor('+ - *')).toEqual([]);
  });

  it('offers terms that look like what was not found', () => {
    expect(nearTerms(searcher, 'xchimneyx')).toContain('chimney');
    expect(nearTerms(searcher, '!!!')).toEqual([]);
  });

  it('fits in 300 KB gzipped, entries and all', () => {
    expect(gzipSync(JSON.stringify(file), { level: 9 }).length / 1024).toBeLessThan(300);
  });
});

describe('the odds in a house', () => {
  const plain = search(searcher, 'leaning', { limit: 30 });
  const failures = plain.filter((r) => r.kind === 'failure');

  it('move an entry up or down, say so, and by a bounded amount', () => {
    const [first, second] = failures;
    if (first === undefined || second === undefined) throw new Error('two failure modes are needed');
    const odds = new Map([
      [first.id, 0.01],
      [second.id, 0.95],
    ]);
    const housed = search(searcher, 'leaning', { limit: 30, odds });
    const found = (id: string): (typeof housed)[number] | undefined => housed.find((r) => r.id === id);
    expect(found(first.id)).toMatchObject({ odds: 0.01, moved: 'down' });
    expect(found(second.id)).toMatchObject({ odds: 0.95, moved: 'up' });
    for (const { id, score } of housed) {
      const before = plain.find((r) => r.id === id)?.score ?? Number.NaN;
      expect(score / before).toBeGreaterThan(0.84);
      expect(score / before).toBeLessThan(1.26);
    }
  });

  it('never overrule: whatever the chance, the weight stays within its bounds and rises with it', () => {
    fc.assert(
      fc.property(fc.double({ noNaN: true }), fc.double({ noNaN: true }), (a, b) => {
        const [low, high] = a < b ? [a, b] : [b, a];
        expect(oddsWeight(low)).toBeGreaterThanOrEqual(0.85);
        expect(oddsWeight(high)).toBeLessThanOrEqual(1.25);
        expect(oddsWeight(low)).toBeLessThanOrEqual(oddsWeight(high));
      }),
    );
  });
});

describe('whatever is typed', () => {
  it('never throws, and finds the same twice', () => {
    const pieces = fc.constantFrom(
      ...Array.from({ length: 95 }, (_, i) => String.fromCharCode(32 + i)),
      ...[
        '😀',
        '👩‍🔧',
        '\u0000',
        '\ud800',
        '\n',
        'title:',
        'roof~2',
        '+leak',
        '-wire^9',
        '*',
        'constructor',
        '__proto__',
      ],
    );
    fc.assert(
      fc.property(fc.oneof(fc.string({ unit: 'binary' }), fc.string({ unit: pieces })), (query) => {
        expect(search(searcher, query, { limit: 5 })).toEqual(search(searcher, query, { limit: 5 }));
        expect(nearTerms(searcher, query)).toEqual(nearTerms(searcher, query));
      }),
      { numRuns: 300 },
    );
  });

  it('takes every symbol alone, operators beside words, and ten thousand characters', () => {
    for (let code = 0; code < 256; code++) {
      const symbol = String.fromCharCode(code);
      expect(() => search(searcher, symbol)).not.toThrow();
      expect(idsFor(`chimney ${symbol} leaning`), `symbol ${code}`).toContain('leaning-chimney');
    }
    for (const query of ['chimney '.repeat(1250), 'x'.repeat(10_000), '~'.repeat(10_000), '😀'.repeat(5000)])
      expect(() => search(searcher, query)).not.toThrow();
    expect(idsFor('chimney '.repeat(1250)).length).toBeGreaterThan(0);
  });
});
