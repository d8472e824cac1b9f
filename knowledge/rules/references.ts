import type { Base, Finding } from '../schema/base.ts';
import { fileOf, type Rule, WRITTEN_KINDS } from './rule.ts';

/** Every id named resolves to an entry of the right kind. */
export const references: Rule = {
  name: 'references',
  must: 'Every id that an entry names is the id of an entry.',
  run(base) {
    const findings: Omit<Finding, 'rule'>[] = [];
    const ids = {
      system: idSet(base.systems),
      material: idSet(base.materials),
      failure: idSet(base.failures),
      check: idSet(base.checks),
      clue: idSet(base.clues),
      paper: idSet(base.papers),
      source: idSet(base.sources),
    };
    const want = (kind: keyof typeof ids, id: string, file: string, field: string): void => {
      if (ids[kind].has(id)) return;
      findings.push({
        file,
        field,
        problem: `names ${kind} "${id}", which is not in the base`,
        fix: nearestFix(id, ids[kind]),
      });
    };

    for (const m of base.materials) {
      const file = fileOf('materials', m.id);
      want('system', m.system, file, 'system');
      for (const p of m.papers) want('paper', p, file, 'papers');
    }
    for (const f of base.failures) {
      const file = fileOf('failures', f.id);
      want('system', f.system, file, 'system');
      f.causes.forEach((cause, i) => {
        for (const m of cause.of ?? []) want('material', m, file, `causes.${i}.of`);
      });
    }
    for (const c of base.checks) {
      const file = fileOf('checks', c.id);
      for (const find of c.finds) want('failure', find.failure, file, 'finds');
      for (const need of c.needs) want('check', need, file, 'needs');
      for (const wait of c.waits) want('check', wait.after, file, 'waits');
    }
    for (const c of base.clues) {
      const file = fileOf('clues', c.id);
      want('system', c.system, file, 'system');
      for (const portion of ['reachable', 'hidden'] as const)
        for (const m of Object.keys(c.reads[portion] ?? {}))
          if (m !== 'else' && m !== 'none') want('material', m, file, `reads.${portion}`);
      for (const f of Object.keys(c.failures)) want('failure', f, file, 'failures');
      for (const other of c.implies) want('clue', other, file, 'implies');
    }
    for (const q of base.questions) {
      const file = fileOf('questions', q.id);
      for (const s of q.systems) want('system', s, file, 'systems');
      for (const f of q.failures) want('failure', f, file, 'failures');
      for (const c of q.answers) want('clue', c, file, 'answers');
      for (const p of q.papers) want('paper', p, file, 'papers');
    }
    for (const e of base.eras) {
      const file = fileOf('eras', e.id);
      for (const has of e.has) want('system', has.system, file, 'has');
      for (const f of e.wrong) want('failure', f, file, 'wrong');
    }
    for (const c of base.chains) {
      const file = fileOf('chains', c.id);
      for (const s of c.suspect) want('failure', s.failure, file, 'suspect');
      for (const n of c.next) want('check', n.check, file, 'next');
    }
    for (const r of base.rulesThen)
      for (const s of r.systems) want('system', s, fileOf('rulesThen', r.id), 'systems');
    for (const { file, field, source } of sourcesNamed(base)) want('source', source, file, field);
    return findings;
  },
};

/** Every `source: [...]` anywhere in the entries, with its place. */
export function sourcesNamed(base: Base): { file: string; field: string; source: string }[] {
  const named: { file: string; field: string; source: string }[] = [];
  const visit = (value: unknown, file: string, field: string): void => {
    if (Array.isArray(value)) for (const [i, item] of value.entries()) visit(item, file, `${field}.${i}`);
    else if (typeof value === 'object' && value !== null)
      for (const [key, inner] of Object.entries(value)) {
        const path = field === '' ? key : `${field}.${key}`;
        if (key === 'source' && Array.isArray(inner))
          for (const source of inner) named.push({ file, field: path, source: String(source) });
        else visit(inner, file, path);
      }
  };
  for (const kind of WRITTEN_KINDS) for (const entry of base[kind]) visit(entry, fileOf(kind, entry.id), '');
  return named;
}

function idSet(entries: { id: string }[]): Set<string> {
  return new Set(entries.map((entry) => entry.id));
}

function nearestFix(id: string, known: Set<string>): string {
  const words = id.split('-');
  const close = [...known].filter((k) => words.some((w) => w.length > 3 && k.includes(w))).slice(0, 4);
  return close.length > 0
    ? `write it, or use one of: ${close.join(', ')}`
    : 'write that entry or mend the id';
}
