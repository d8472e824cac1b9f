import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { marksOf } from '../bench/search/judged.ts';
import { file } from './whole-base.ts';

interface Judgments {
  topics: Record<string, { 1: string[]; 2: string[] }>;
  gaps: string[];
}
const { topics, gaps }: Judgments = parse(readFileSync(join(import.meta.dirname, 'relevance.yaml'), 'utf8'));

describe('judgments', () => {
  it('name entries of the base, once a topic, and no topic is a gap as well', () => {
    const ids = new Set(file.entries.map(({ id }) => id));
    for (const [topic, grades] of Object.entries(topics)) {
      const named = [...grades[2], ...grades[1]];
      expect(
        named.filter((id) => !ids.has(id)),
        topic,
      ).toEqual([]);
      expect(new Set(named).size, topic).toBe(named.length);
      expect(grades[2].length, topic).toBeGreaterThan(0);
      expect(gaps).not.toContain(topic);
    }
  });
});

describe('marks', () => {
  const grades = new Map([
    ['best', 2],
    ['close', 1],
  ]);
  it('are full for the best order, worked by hand for a worse one, nothing for strangers', () => {
    expect(marksOf(['best', 'close'], grades)).toEqual({ first: 1, five: 1, ndcg: 1 });
    // Gains are 3 and 1: (1 / log2 2 + 3 / log2 3) / (3 / log2 2 + 1 / log2 3).
    expect(marksOf(['close', 'best'], grades).ndcg).toBeCloseTo(0.7967, 4);
    expect(marksOf(['close', 'best'], grades)).toMatchObject({ first: 0, five: 1 });
    expect(marksOf(['other'], grades)).toEqual({ first: 0, five: 0, ndcg: 0 });
  });
});
