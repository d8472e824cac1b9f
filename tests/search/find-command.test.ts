import { describe, expect, it } from 'vitest';
import { datestone } from '../cli/run-datestone.ts';

interface Answer {
  results: { id: string; odds: number | null; moved: string | null; check: { id: string } | null }[];
  near?: string[];
}

describe('datestone find', () => {
  it('ranks with the odds of a house, and says so', () => {
    const { code, out } = datestone(['find', 'leaning', 'pier', '--built', '1913', '--foundation', 'piers']);
    expect(code).toBe(0);
    expect(out).toContain('ranked with the odds in this house');
    const words = ['find', 'leaning', 'pier', '--json'];
    const housed: Answer = JSON.parse(datestone([...words, '--built', '1913', '--foundation', 'piers']).out);
    const plain: Answer = JSON.parse(datestone(words).out);
    const of = (answer: Answer) => answer.results.find(({ id }) => id === 'leaning-pier');
    expect(of(housed)?.odds).toBeGreaterThan(0);
    expect(of(plain)).toMatchObject({ odds: null, moved: null, check: { id: 'pier-look' } });
  });

  it('offers terms like what was not found', () => {
    const { results, near }: Answer = JSON.parse(datestone(['find', 'xchimneyx', '--json']).out);
    expect(results).toEqual([]);
    expect(near).toContain('chimney');
  });
});
