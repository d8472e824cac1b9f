import {
  base,
  type CheckEntry,
  type EraEntry,
  type FailureEntry,
  type MaterialEntry,
  papers,
  type SystemEntry,
} from './knowledge.ts';
import { type EntryKind, to, toEntry } from './link.ts';
import { GROUP_WORDS, SOON_WORDS, SOONS } from './words.ts';

/** A line of a list: where it leads, its name, and a few words. */
export interface Line {
  href: string;
  title: string;
  note?: string | undefined;
}

type Titled = { id: string; title: string; answer: string };

export const lineOf = (kind: EntryKind, entry: Titled, note: string = entry.answer): Line => ({
  href: toEntry(kind, entry.id),
  title: entry.title,
  note,
});

export const systemLine = (e: SystemEntry): Line => lineOf('systems', e);
export const materialLine = (e: MaterialEntry): Line => lineOf('materials', e);
export const failureLine = (e: FailureEntry): Line => lineOf('failures', e);
export const checkLine = (e: CheckEntry): Line => lineOf('checks', e);
export const eraLine = (e: EraEntry): Line => lineOf('eras', e, `${e.from} to ${e.to}. ${e.answer}`);

/** Failure modes by how soon they matter, the gravest first within each. */
export function bySoon(list: FailureEntry[]): { title: string; means: string; entries: FailureEntry[] }[] {
  return SOONS.map((soon) => ({
    ...SOON_WORDS[soon],
    entries: list.filter((f) => f.soon === soon).sort((a, b) => weight(b) - weight(a)),
  })).filter((group) => group.entries.length > 0);
}

const weight = (f: FailureEntry): number =>
  (f.lifeSafety ? 10 : 0) + f.stakes.people + f.stakes.structure + f.stakes.water + f.stakes.money;

export function systemsByGroup(): { id: string; title: string; entries: SystemEntry[] }[] {
  const groups = Object.keys(GROUP_WORDS);
  return groups
    .map((group) => ({
      id: group,
      title: GROUP_WORDS[group] ?? group,
      entries: base.systems.filter((s) => s.group === group),
    }))
    .filter((g) => g.entries.length > 0);
}

/** Periods, oldest first. */
export const erasInOrder: EraEntry[] = [...base.eras].sort((a, b) => a.from - b.from);

/** The page that a knowledge file, or an entry of a list, is shown on. */
export function pageOfFile(file: string): Line | null {
  const match = /^knowledge\/(\w+)\/(?:([\w-]+)\.mdx| \(entry ([\w-]+)\))$/.exec(file);
  if (match === null) return null;
  const kind = match[1] ?? '';
  const id = match[2] ?? match[3] ?? '';
  switch (kind) {
    case 'systems':
    case 'materials':
    case 'failures':
    case 'checks':
    case 'eras': {
      const list: Titled[] = base[kind];
      const entry = list.find((e) => e.id === id);
      return entry === undefined ? null : { href: toEntry(kind, id), title: entry.title };
    }
    case 'questions':
      return { href: to(`/questions/#ask-${id}`), title: 'A question' };
    case 'papers':
      return { href: to(`/questions/#paper-${id}`), title: papers.get(id)?.title ?? 'A paper' };
    case 'clues': {
      const clue = base.clues.find((c) => c.id === id);
      return clue === undefined
        ? null
        : { href: `${toEntry('systems', clue.system)}#clue-${id}`, title: clue.say.replace(/\.$/, '') };
    }
    default:
      return null;
  }
}
