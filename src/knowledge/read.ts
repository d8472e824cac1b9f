import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { parse } from 'yaml';
import type { z } from 'zod';
import type { Base, Finding } from '../../knowledge/schema/base.ts';
import { Chain } from '../../knowledge/schema/chain.ts';
import { Check, Stop } from '../../knowledge/schema/check.ts';
import { Clue } from '../../knowledge/schema/clue.ts';
import { Failure } from '../../knowledge/schema/failure.ts';
import { Fit } from '../../knowledge/schema/fit.ts';
import { Material } from '../../knowledge/schema/material.ts';
import { Places } from '../../knowledge/schema/place.ts';
import { Paper, Question } from '../../knowledge/schema/question.ts';
import { Era, Source, Term } from '../../knowledge/schema/reference.ts';
import { Renewing } from '../../knowledge/schema/renewing.ts';
import { RuleThen } from '../../knowledge/schema/rule-then.ts';
import { System } from '../../knowledge/schema/system.ts';

export interface ReadResult {
  base: Base;
  /** Faults of form: what the schemas refuse. Refused entries are left out of `base`. */
  findings: Finding[];
}

/** Reads the folder `knowledge/` whole. Faults are collected, never thrown, each with its file and field. */
export function readKnowledge(root: string): ReadResult {
  const reader = new Reader(root);
  const base: Omit<Base, 'hash'> = {
    systems: reader.folder('systems', System),
    materials: reader.folder('materials', Material),
    failures: reader.folder('failures', Failure),
    checks: reader.folder('checks', Check),
    eras: reader.folder('eras', Era),
    clues: reader.lists('clues', Clue),
    questions: reader.lists('questions', Question),
    papers: reader.list('papers.yaml', Paper),
    sources: reader.lists('sources', Source),
    terms: reader.lists('terms', Term),
    chains: reader.list('chains.yaml', Chain),
    rulesThen: reader.list('rules-then.yaml', RuleThen),
    stops: reader.list('stops.yaml', Stop),
    places: reader.places(),
    fits: reader.json('fits', Fit),
    renewing: reader.renewing(),
  };
  const hash = createHash('sha256').update(JSON.stringify(base)).digest('hex').slice(0, 16);
  return { base: { hash, ...base }, findings: reader.findings };
}

class Reader {
  readonly findings: Finding[] = [];
  readonly #root: string;

  constructor(root: string) {
    this.#root = root;
  }

  /** One entry a file: YAML front matter between `---` lines, then prose. */
  folder<S extends z.ZodType>(name: string, schema: S): (z.infer<S> & { id: string; body: string })[] {
    const entries: (z.infer<S> & { id: string; body: string })[] = [];
    for (const file of this.#files(name, '.mdx')) {
      const text = readFileSync(join(this.#root, file), 'utf8');
      const match = /^---\n([\s\S]*?)\n---\n?([\s\S]*)$/.exec(text);
      if (match === null) {
        this.#report(
          'front-matter',
          file,
          '',
          'has no front matter',
          'begin the file with --- and YAML, then ---',
        );
        continue;
      }
      const value = this.#check(schema, this.#yaml(match[1] ?? '', file), file);
      if (value === undefined) continue;
      entries.push(Object.assign({}, value, { id: basename(file, '.mdx'), body: (match[2] ?? '').trim() }));
    }
    return entries.sort((a, b) => (a.id < b.id ? -1 : 1));
  }

  /** Many entries a file: each YAML file of the folder is a list. */
  lists<S extends z.ZodType>(name: string, schema: S): z.infer<S>[] {
    return this.#files(name, '.yaml').flatMap((file) => this.list(file, schema));
  }

  list<S extends z.ZodType>(file: string, schema: S): z.infer<S>[] {
    if (!existsSync(join(this.#root, file))) return [];
    const rows = this.#yaml(readFileSync(join(this.#root, file), 'utf8'), file);
    if (!Array.isArray(rows)) {
      this.#report('list', file, '', 'is not a list', 'begin each entry with "- "');
      return [];
    }
    return rows.flatMap((row: unknown, i) => {
      const value = this.#check(schema, row, file, nameOf(row, i));
      return value === undefined ? [] : [value];
    });
  }

  /** One entry a JSON file, written by a command. */
  json<S extends z.ZodType>(name: string, schema: S): z.infer<S>[] {
    return this.#files(name, '.json').flatMap((file) => {
      const value = this.#check(schema, JSON.parse(readFileSync(join(this.#root, file), 'utf8')), file);
      return value === undefined ? [] : [value];
    });
  }

  places(): Places {
    const file = 'places/places.json';
    const empty: Places = {
      states: [],
      fields: {},
      zip3: {},
      stock: { vintages: [], byState: {}, units: {}, source: [] },
      foundations: {
        kinds: [],
        vintages: [],
        byZone: {},
        rowByZone: {},
        byDivision: {},
        factorYears: [1930, 2000],
        source: [],
      },
    };
    const path = join(this.#root, file);
    if (!existsSync(path)) {
      this.#report('places', file, '', 'is not there', 'run npm run calibrate -- FOLDER to make it');
      return empty;
    }
    const value = this.#check(Places, JSON.parse(readFileSync(path, 'utf8')), file);
    return value ?? empty;
  }

  /** How owners differ in renewing. Without the file no two systems of a house are tied. */
  renewing(): Renewing {
    const file = 'renewing.json';
    const none = { best: 0, low: 0, high: 0, grade: 'memory' as const, source: [] };
    const made = { source: 'none', rows: 0, data: '', script: '' };
    const empty: Renewing = { inside: none, outside: none, correlation: none, made };
    const path = join(this.#root, file);
    if (!existsSync(path)) {
      this.#report('renewing', file, '', 'is not there', 'run npm run calibrate -- FOLDER to make it');
      return empty;
    }
    return this.#check(Renewing, JSON.parse(readFileSync(path, 'utf8')), file) ?? empty;
  }

  #files(name: string, ending: string): string[] {
    const folder = join(this.#root, name);
    if (!existsSync(folder)) return [];
    return readdirSync(folder)
      .filter((file) => file.endsWith(ending))
      .sort()
      .map((file) => `${name}/${file}`);
  }

  #yaml(text: string, file: string): unknown {
    try {
      return parse(text);
    } catch (error) {
      const reason = error instanceof Error ? (error.message.split('\n')[0] ?? '') : String(error);
      this.#report('yaml', file, '', reason, 'mend the YAML; quote text that holds a colon');
      return undefined;
    }
  }

  #check<S extends z.ZodType>(schema: S, value: unknown, file: string, entry = ''): z.infer<S> | undefined {
    if (value === undefined) return undefined;
    const result = schema.safeParse(value);
    if (result.success) return result.data;
    for (const issue of result.error.issues) {
      const field = [entry, ...issue.path.map(String)].filter((part) => part !== '').join('.');
      this.#report('form', file, field, issue.message, 'see docs/authoring.md for what the field takes');
    }
    return undefined;
  }

  #report(rule: string, file: string, field: string, problem: string, fix: string): void {
    this.findings.push({ rule, file: `knowledge/${file}`, field, problem, fix });
  }
}

function nameOf(row: unknown, index: number): string {
  if (typeof row === 'object' && row !== null) {
    const { id, term } = row as { id?: unknown; term?: unknown };
    if (typeof id === 'string') return id;
    if (typeof term === 'string') return term;
  }
  return `#${index + 1}`;
}
