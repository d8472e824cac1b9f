import type { Base } from '../../knowledge/schema/base.ts';
import type { SearchEntry, Soon } from './search-file.ts';

/** An entry as it is indexed: the fields differ in how much a hit in them counts. */
export interface SearchDocument extends SearchEntry {
  /** Other names: trade words and common ones. */
  also: string[];
  /** What people say and type. */
  symptoms: string[];
  body: string[];
  /** The system it belongs to; null where it is one of several. */
  system: string | null;
  soon: Soon | null;
}

/** Every entry that a person could be looking for. Sources are not among them. */
export function documentsOf(base: Base): SearchDocument[] {
  const systemTitle = new Map(base.systems.map((s) => [s.id, s.title]));
  const titleOf = (system: string): string => systemTitle.get(system) ?? '';
  return [
    ...base.systems.map(
      (s): SearchDocument => ({
        ...heading('system', s, s.id),
        also: [],
        symptoms: [],
        body: [s.portions.reachable, s.portions.hidden ?? '', s.body],
      }),
    ),
    ...base.materials.map(
      (m): SearchDocument => ({
        ...heading('material', m, m.system),
        also: m.also,
        symptoms: [],
        body: [
          titleOf(m.system),
          ...m.know,
          ...m.lookAlikes.flatMap((l) => [l.of, l.tell]),
          m.usuallyStays ?? '',
          m.usuallyReplacedBy ?? '',
          ...m.hazards,
          m.body,
        ],
      }),
    ),
    ...base.failures.map(
      (f): SearchDocument => ({
        ...heading('failure', f, f.system),
        soon: f.soon,
        also: f.trade,
        symptoms: f.symptoms,
        body: [
          titleOf(f.system),
          f.mechanism,
          ...f.rivals.flatMap((r) => [r.what, r.tell]),
          f.consequence,
          f.soundRepair,
          f.coverUp ?? '',
          f.upkeep ?? '',
          f.say,
          f.body,
        ],
      }),
    ),
    ...base.checks.map(
      (c): SearchDocument => ({
        ...heading('check', c),
        also: c.tools,
        symptoms: [],
        body: [...c.steps, ...c.cannotTell, c.body],
      }),
    ),
    ...base.eras.map(
      (e): SearchDocument => ({
        ...heading('era', e),
        also: [`${e.from}`, `${e.to}`],
        symptoms: [],
        body: [...e.has.map((h) => h.what), ...e.rules.map((r) => r.what), e.body],
      }),
    ),
    ...base.questions.map(
      (q): SearchDocument => ({
        id: q.id,
        kind: 'question',
        title: q.ask,
        answer: q.why,
        system: null,
        soon: null,
        also: [],
        symptoms: [],
        body: q.systems.map(titleOf),
      }),
    ),
    ...base.clues.map(
      (c): SearchDocument => ({
        id: c.id,
        kind: 'clue',
        title: c.say,
        answer: c.caution ?? '',
        system: c.system,
        soon: null,
        also: [],
        symptoms: [],
        body: [titleOf(c.system)],
      }),
    ),
    ...base.papers.map(
      (p): SearchDocument => ({
        id: p.id,
        kind: 'paper',
        title: p.title,
        answer: p.shows,
        system: null,
        soon: null,
        also: [],
        symptoms: [],
        body: [p.cannotShow, p.lookFor],
      }),
    ),
  ];
}

function heading(
  kind: SearchEntry['kind'],
  entry: { id: string; title: string; answer: string },
  system: string | null = null,
): SearchEntry & Pick<SearchDocument, 'system' | 'soon'> {
  return { id: entry.id, kind, title: entry.title, answer: entry.answer, system, soon: null };
}
