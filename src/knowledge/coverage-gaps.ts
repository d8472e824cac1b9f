import type { Base } from '../../knowledge/schema/base.ts';

/** Something the base lacks: what, and which entries. */
export interface Gap {
  what: string;
  entries: string[];
}

/** Weakest look that still counts as finding a fault that must be settled first (common practice). */
const WEAK = 0.5;

/** What a reader would miss, named entry by entry. */
export function gapsOf(base: Base): Gap[] {
  const finders = (id: string): number[] =>
    base.checks.flatMap((c) => c.finds.filter((f) => f.failure === id).map((f) => f.sensitivity));
  const asked = new Set(base.questions.flatMap((q) => q.failures));
  const chained = new Set(base.chains.flatMap((c) => c.suspect.map((s) => s.failure)));
  const told = new Set(base.eras.flatMap((e) => e.has.map((h) => h.system)));
  const ruled = new Set(base.rulesThen.flatMap((r) => r.systems));
  const first = base.failures.filter((f) => f.soon === 'settle-first');
  const ids = (list: { id: string }[]): string[] => list.map((e) => e.id);
  return [
    {
      what: `Settle first, and no single look finds it more often than ${WEAK * 100} times in a hundred`,
      entries: ids(first.filter((f) => Math.max(0, ...finders(f.id)) < WEAK)),
    },
    {
      what: 'Settle first, and only one look finds it',
      entries: ids(first.filter((f) => finders(f.id).length === 1)),
    },
    { what: 'Settle first, in no diagnosis chain', entries: ids(first.filter((f) => !chained.has(f.id))) },
    { what: 'Settle first, without a cost', entries: ids(first.filter((f) => f.cost === undefined)) },
    {
      what: 'Failure modes that no question asks about',
      entries: ids(base.failures.filter((f) => !asked.has(f.id))),
    },
    {
      what: 'Failure modes without a word on a poor cover-up',
      entries: ids(base.failures.filter((f) => f.coverUp === undefined)),
    },
    {
      what: 'Failure modes without upkeep that prevents them',
      entries: ids(base.failures.filter((f) => f.upkeep === undefined)),
    },
    {
      what: 'Materials that do not say how to tell in use from dead',
      entries: ids(base.materials.filter((m) => m.inUse === undefined)),
    },
    {
      what: 'Materials without differences by region',
      entries: ids(base.materials.filter((m) => m.regions === undefined)),
    },
    {
      what: 'Systems that no period tells of',
      entries: ids(base.systems.filter((s) => !told.has(s.id))),
    },
    {
      what: 'Systems without a rule or custom of their time',
      entries: ids(base.systems.filter((s) => !ruled.has(s.id))),
    },
    {
      what: 'Systems with fewer than three clues',
      entries: ids(base.systems.filter((s) => base.clues.filter((c) => c.system === s.id).length < 3)),
    },
  ].filter((gap) => gap.entries.length > 0);
}
