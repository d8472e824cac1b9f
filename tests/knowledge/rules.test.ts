import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { checkBase, RULES } from '../../knowledge/rules/check-base.ts';
import type { Base, Finding } from '../../knowledge/schema/base.ts';
import { readKnowledge } from '../../src/knowledge/read.ts';

const { base, findings } = readKnowledge(join(import.meta.dirname, '../../knowledge'));

describe('the knowledge base', () => {
  it('has no fault of form', () => {
    expect(findings).toEqual([]);
  });

  it('keeps every rule', () => {
    expect(checkBase(base)).toEqual([]);
  });

  it('holds every kind of entry in the numbers that were promised', () => {
    expect(base.systems.length).toBeGreaterThanOrEqual(30);
    expect(base.materials.length).toBeGreaterThanOrEqual(170);
    expect(base.failures.length).toBeGreaterThanOrEqual(282);
    expect(base.checks.length).toBeGreaterThanOrEqual(120);
    expect(base.clues.length).toBeGreaterThanOrEqual(140);
    expect(base.questions.length).toBeGreaterThanOrEqual(162);
    expect(base.sources.length).toBeGreaterThanOrEqual(200);
    expect(base.eras.length).toBeGreaterThanOrEqual(16);
    expect(base.chains.length).toBeGreaterThanOrEqual(25);
    expect(base.rulesThen.length).toBeGreaterThanOrEqual(40);
    expect(base.places.states.length).toBe(51);
  });
});

/** What a rule finds in a broken copy of the base that it does not find in the base itself. */
function newFindings(name: string, damage: (copy: Base) => void): Omit<Finding, 'rule'>[] {
  const rule = RULES.find((r) => r.name === name);
  if (rule === undefined) throw new Error(`there is no rule "${name}"`);
  const known = new Set(rule.run(base).map((f) => JSON.stringify(f)));
  const copy = structuredClone(base);
  damage(copy);
  return rule.run(copy).filter((f) => !known.has(JSON.stringify(f)));
}

function first<T>(list: T[]): T {
  const [item] = list;
  if (item === undefined) throw new Error('the base is empty');
  return item;
}

/** One way to break each rule, and where the finding must point. */
const DAMAGE: Record<string, { damage: (copy: Base) => void; at: RegExp }[]> = {
  unique: [{ damage: (copy) => copy.clues.push(first(copy.clues)), at: /knowledge\/clues/ }],
  references: [
    {
      damage: (copy) => first(copy.materials).papers.push('no-such-paper'),
      at: /knowledge\/materials\/.*\.mdx/,
    },
    {
      damage: (copy) => {
        first(copy.checks).finds.push({
          failure: 'no-such-failure',
          sensitivity: 0.5,
          grade: 'practice',
          source: [],
        });
      },
      at: /knowledge\/checks\/.*\.mdx/,
    },
    { damage: (copy) => first(copy.failures).source.push('no-such-source'), at: /knowledge\/failures/ },
  ],
  shares: [
    {
      damage: (copy) => {
        const row = first(Object.values(first(copy.systems).shares.new.rows));
        row[0] = (row[0] ?? 0) > 0.5 ? 0.1 : 0.9;
      },
      at: /knowledge\/systems/,
    },
  ],
  years: [
    {
      damage: (copy) => {
        for (const material of copy.materials)
          material.years = { ...material.years, first: 2020, last: 2021 };
      },
      at: /knowledge\/systems/,
    },
  ],
  reach: [
    {
      damage: (copy) => {
        copy.checks = copy.checks.slice(1);
        for (const check of copy.checks) check.finds = check.finds.slice(0, 1);
      },
      at: /knowledge\/failures/,
    },
    {
      damage: (copy) => {
        copy.checks = copy.checks.filter((c) => c.stop !== 'garage');
      },
      at: /knowledge\/stops\.yaml/,
    },
    {
      damage: (copy) => {
        copy.questions = copy.questions.filter((q) => !q.systems.includes('well'));
      },
      at: /knowledge\/systems\/well\.mdx/,
    },
    {
      damage: (copy) => {
        copy.sources.push({ ...first(copy.sources), id: 'never-named' });
      },
      at: /entry never-named/,
    },
  ],
  chains: [
    {
      damage: (copy) => {
        for (const check of copy.checks) check.finds = check.finds.slice(0, 1);
      },
      at: /knowledge\/chains\.yaml/,
    },
  ],
  readability: [
    {
      damage: (copy) => {
        first(copy.failures).say =
          'Supplementary electrical remediation necessitates comprehensive professional evaluation preceding transactional commitment.';
      },
      at: /knowledge\/failures/,
    },
    {
      damage: (copy) => {
        first(copy.eras).answer =
          'Vernacular construction utilizing irregular fieldstone substructures characterizes preindustrial domestic architecture throughout northeastern communities.';
      },
      at: /knowledge\/eras/,
    },
  ],
  overlap: [
    {
      damage: (copy) => {
        const question = first(copy.questions);
        copy.questions.push({ ...question, id: 'asked-twice' });
      },
      at: /knowledge\/questions/,
    },
    {
      damage: (copy) => {
        const failure = first(copy.failures);
        copy.failures.push({ ...failure, id: 'the-same-again', title: 'Another title for it' });
      },
      at: /knowledge\/failures/,
    },
  ],
  order: [
    {
      damage: (copy) => {
        const check = first(copy.checks);
        check.needs.push(check.id);
      },
      at: /knowledge\/checks/,
    },
  ],
  'never-say': [
    {
      damage: (copy) => {
        first(copy.failures).say = 'The wiring was checked and is safe to use.';
      },
      at: /knowledge\/failures/,
    },
    {
      damage: (copy) => {
        first(copy.materials).answer = 'The pipe wrap is asbestos and must go at once.';
      },
      at: /knowledge\/materials/,
    },
  ],
};

describe('rules', () => {
  it.each(RULES.map((rule) => rule.name))('%s finds what breaks it, says where and what to do', (name) => {
    const cases = DAMAGE[name];
    if (cases === undefined)
      throw new Error(`no broken base is written for the rule "${name}"; add one to DAMAGE`);
    for (const { damage, at } of cases) {
      const found = newFindings(name, damage);
      expect(found.length).toBeGreaterThan(0);
      expect(found.some((f) => at.test(f.file))).toBe(true);
      for (const f of found) {
        expect(f.problem).not.toBe('');
        expect(f.fix).not.toBe('');
      }
    }
  });
});
