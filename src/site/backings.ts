import type { Grade } from '../../knowledge/schema/common.ts';

/** One statement of an entry, how well it is known, and who says so. */
export interface Backing {
  what: string;
  grade: Grade | null;
  sources: string[];
}

const NAMES: Record<string, string> = {
  '': 'The entry as a whole',
  years: 'Years of use',
  life: 'Service life',
  'shares.new': 'Shares in new houses',
  'shares.renewal': 'Shares in renewals',
  cost: 'Cost of a cure',
};

/** Every graded figure of an entry, those with the same backing joined into one line. */
export function backings(entry: object): Backing[] {
  const found: Backing[] = [];
  visit(entry, '', found);
  const joined = new Map<string, Backing>();
  for (const one of found) {
    const key = `${one.grade ?? ''}|${one.sources.join(' ')}`;
    const same = joined.get(key);
    if (same === undefined) joined.set(key, one);
    else if (!same.what.toLowerCase().includes(one.what.toLowerCase()))
      same.what = `${same.what}; ${one.what.charAt(0).toLowerCase()}${one.what.slice(1)}`;
  }
  return [...joined.values()];
}

function visit(value: unknown, path: string, found: Backing[]): void {
  if (Array.isArray(value)) {
    for (const inner of value) visit(inner, path, found);
    return;
  }
  if (typeof value !== 'object' || value === null) return;
  const { grade, source } = value as { grade?: unknown; source?: unknown };
  const sources = Array.isArray(source) ? source.map(String) : [];
  if (isGrade(grade)) found.push({ what: nameOf(path), grade, sources });
  else if (sources.length > 0) found.push({ what: nameOf(path), grade: null, sources });
  for (const [key, inner] of Object.entries(value))
    if (key !== 'source') visit(inner, path === '' ? key : `${path}.${key}`, found);
}

function isGrade(value: unknown): value is Grade {
  return value === 'measured' || value === 'published' || value === 'practice' || value === 'memory';
}

function nameOf(path: string): string {
  const known = NAMES[path];
  if (known !== undefined) return known;
  if (path.startsWith('causes')) return 'How often it is met';
  if (path === 'finds') return 'How surely it finds';
  if (path === 'waves') return 'Waves of renewal';
  if (path === 'regions') return 'Differences by place';
  if (path === 'rules') return 'Rules in force';
  return path.replaceAll('.', ' ');
}
