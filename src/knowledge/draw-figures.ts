import { join } from 'node:path';
import { gradedIn } from '../../knowledge/rules/settle-first.ts';
import type { Base } from '../../knowledge/schema/base.ts';
import { readKnowledge } from './read.ts';

/** A figure that names a source, drawn to be checked against it. */
export interface DrawnFigure {
  file: string;
  field: string;
  grade: string;
  source: string[];
  /** The figure as it stands, in short. */
  value: string;
}

/** Every measured or published statement with a number in it that names a source. */
export function sourcedFigures(base: Base): DrawnFigure[] {
  const kinds = ['systems', 'materials', 'failures', 'checks', 'clues', 'questions'] as const;
  return kinds.flatMap((kind) =>
    base[kind].flatMap((entry) =>
      gradedIn(entry, `${kind}/${entry.id}`)
        .filter((f) => f.source.length > 0 && f.field !== '' && ['measured', 'published'].includes(f.grade))
        .map((f) => ({ ...f, value: shortly(at(entry, f.field)) })),
    ),
  );
}

/** `count` of them by a fixed seed: the same figures for the same base. */
export function drawFigures(base: Base, seed: number, count: number): DrawnFigure[] {
  const pool = sourcedFigures(base).sort((a, b) => (key(a) < key(b) ? -1 : 1));
  const next = random(seed);
  for (let i = 0; i < Math.min(count, pool.length); i++) {
    const j = i + Math.floor(next() * (pool.length - i));
    const [here, there] = [pool[i], pool[j]];
    if (here !== undefined && there !== undefined) {
      pool[i] = there;
      pool[j] = here;
    }
  }
  return pool.slice(0, count);
}

const key = (f: DrawnFigure): string => `${f.file} ${f.field}`;

/** The part of an entry at a dotted path. */
function at(value: unknown, path: string): unknown {
  return path
    .split('.')
    .reduce<unknown>(
      (inner, step) =>
        typeof inner === 'object' && inner !== null
          ? Object.entries(inner).find(([name]) => name === step)?.[1]
          : undefined,
      value,
    );
}

function shortly(value: unknown): string {
  return (JSON.stringify(value) ?? '')
    .replace(/,?"(grade|source|note)":("[^"]*"|\[[^\]]*\])/g, '')
    .slice(0, 240);
}

/** Mulberry32: a small generator, good enough to draw by and the same everywhere. */
function random(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** `node src/knowledge/draw-figures.ts [seed] [count]` prints the figures to check. */
if (process.argv[1] === import.meta.filename) {
  const { base } = readKnowledge(join(import.meta.dirname, '../../knowledge'));
  const seed = Number(process.argv[2] ?? '1885');
  const count = Number(process.argv[3] ?? '40');
  console.log(`seed ${seed}, ${count} of ${sourcedFigures(base).length} figures that name a source`);
  for (const [i, f] of drawFigures(base, seed, count).entries())
    console.log(`${i + 1}. ${f.file} ${f.field} (${f.grade}: ${f.source.join(', ')})\n   ${f.value}`);
}
