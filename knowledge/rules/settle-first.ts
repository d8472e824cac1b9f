import type { Base } from '../schema/base.ts';
import { Grade } from '../schema/common.ts';

/** At most this part of the figures behind "settle first" failure modes is to rest on practice or memory. */
export const MOST_UNSOURCED = 0.4;

/** A graded figure behind a failure mode. */
export interface BackedFigure {
  file: string;
  field: string;
  grade: Grade;
  source: string[];
}

/** Every graded figure that stands behind the "settle first" failure modes: their odds, costs and grade, and how
 * well each check finds them. A figure is anything that carries a grade. */
export function settleFirstFigures(base: Base): BackedFigure[] {
  const first = new Set(base.failures.filter((f) => f.soon === 'settle-first').map((f) => f.id));
  return [
    ...base.failures
      .filter((f) => first.has(f.id))
      .flatMap((f) => gradedIn(f, `knowledge/failures/${f.id}.mdx`)),
    ...base.checks.flatMap((c) =>
      c.finds
        .filter((find) => first.has(find.failure))
        .flatMap((find) => gradedIn(find, `knowledge/checks/${c.id}.mdx`, `finds.${find.failure}`)),
    ),
  ];
}

/** How many of the figures rest on each grade. */
export function countByGrade(figures: { grade: Grade }[]): Record<Grade, number> {
  const counts: Record<Grade, number> = { measured: 0, published: 0, practice: 0, memory: 0 };
  for (const { grade } of figures) counts[grade] += 1;
  return counts;
}

/** The part of the figures that has no source: practice and memory. */
export function unsourcedPart(figures: { grade: Grade }[]): number {
  const counts = countByGrade(figures);
  return figures.length === 0 ? 0 : (counts.practice + counts.memory) / figures.length;
}

/** Everything in an entry that carries a grade, with its place. */
export function gradedIn(entry: unknown, file: string, at = ''): BackedFigure[] {
  if (Array.isArray(entry))
    return entry.flatMap((item: unknown, i) => gradedIn(item, file, at === '' ? `${i}` : `${at}.${i}`));
  if (typeof entry !== 'object' || entry === null) return [];
  const here = Grade.safeParse('grade' in entry ? entry.grade : undefined);
  const inner = Object.entries(entry).flatMap(([key, value]) =>
    gradedIn(value, file, at === '' ? key : `${at}.${key}`),
  );
  if (!here.success) return inner;
  const source = 'source' in entry && Array.isArray(entry.source) ? entry.source.map(String) : [];
  return [{ file, field: at, grade: here.data, source }, ...inner];
}
