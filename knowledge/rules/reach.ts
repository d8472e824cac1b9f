import type { Base, Finding } from '../schema/base.ts';
import { sourcesNamed } from './references.ts';
import { fileOf, type Rule } from './rule.ts';

/** Nothing stands alone: failures have checks, clues and failures stay in their system, ids are unique. */
export const reach: Rule = {
  name: 'reach',
  must: 'Every failure mode is found by a check, every check stands at a stop and every stop has a check, every system has a failure mode and a question, every source is used.',
  run(base) {
    const findings: Omit<Finding, 'rule'>[] = [];
    const found = new Set(base.checks.flatMap((c) => c.finds.map((f) => f.failure)));
    for (const f of base.failures)
      if (!found.has(f.id))
        findings.push({
          file: fileOf('failures', f.id),
          field: '',
          problem: 'is found by no check',
          fix: 'name it in the finds of a check',
        });
    const failing = new Set(base.failures.map((f) => f.system));
    const asked = new Set(base.questions.flatMap((q) => q.systems));
    for (const s of base.systems) {
      if (!failing.has(s.id))
        findings.push({
          file: fileOf('systems', s.id),
          field: '',
          problem: 'has no failure mode',
          fix: 'write one',
        });
      if (!asked.has(s.id))
        findings.push({
          file: fileOf('systems', s.id),
          field: '',
          problem: 'has no question',
          fix: 'write one',
        });
    }
    const stops = new Set<string>(base.stops.map((s) => s.id));
    for (const c of base.checks)
      if (!stops.has(c.stop))
        findings.push({
          file: fileOf('checks', c.id),
          field: 'stop',
          problem: `"${c.stop}" is not in stops.yaml`,
          fix: 'add the stop',
        });
    const stoodAt = new Set<string>(base.checks.map((c) => c.stop));
    for (const stop of stops)
      if (!stoodAt.has(stop))
        findings.push({
          file: 'knowledge/stops.yaml',
          field: stop,
          problem: 'has no check',
          fix: 'write a check for it or drop the stop',
        });
    const used = sourcesUsed(base);
    for (const { id } of base.sources)
      if (!used.has(id))
        findings.push({
          file: fileOf('sources', id),
          field: '',
          problem: 'is used by no entry',
          fix: 'name it where its figures stand, or drop it',
        });
    return findings;
  },
};

/** Sources named by entries, by the place data and by the fitted processes. */
function sourcesUsed(base: Base): Set<string> {
  const used = new Set(sourcesNamed(base).map(({ source }) => source));
  const { fields, stock, foundations } = base.places;
  for (const { source } of [...Object.values(fields), stock, foundations])
    for (const id of source) used.add(id);
  for (const { corrected } of base.places.states)
    for (const id of Object.values(corrected).flat()) used.add(id);
  for (const fit of base.fits) {
    used.add(fit.made.source);
    for (const wave of fit.waves) for (const id of wave.source) used.add(id);
  }
  used.add(base.renewing.made.source);
  for (const figure of [base.renewing.inside, base.renewing.outside, base.renewing.correlation])
    for (const id of figure.source) used.add(id);
  return used;
}

export const unique: Rule = {
  name: 'unique',
  must: 'An id names one thing of its kind.',
  run(base) {
    const findings: Omit<Finding, 'rule'>[] = [];
    for (const kind of ['clues', 'questions', 'papers', 'sources', 'chains', 'rulesThen'] as const) {
      const seen = new Set<string>();
      for (const { id } of base[kind]) {
        if (seen.has(id))
          findings.push({
            file: fileOf(kind, id),
            field: 'id',
            problem: 'is used twice',
            fix: 'merge the entries or rename one',
          });
        seen.add(id);
      }
    }
    return findings;
  },
};

/** No circle of checks that each wait for another. */
export const order: Rule = {
  name: 'order',
  must: 'Checks that need or wait for others form no circle.',
  run(base) {
    const before = new Map(base.checks.map((c) => [c.id, [...c.needs, ...c.waits.map((w) => w.after)]]));
    const state = new Map<string, 'open' | 'done'>();
    const findings: Omit<Finding, 'rule'>[] = [];
    const visit = (id: string, path: string[]): void => {
      if (state.get(id) === 'done') return;
      if (state.get(id) === 'open') {
        findings.push({
          file: fileOf('checks', id),
          field: 'needs',
          problem: `waits for itself: ${[...path, id].join(' > ')}`,
          fix: 'drop one of the needs',
        });
        return;
      }
      state.set(id, 'open');
      for (const need of before.get(id) ?? []) visit(need, [...path, id]);
      state.set(id, 'done');
    };
    for (const c of base.checks) visit(c.id, []);
    return findings;
  },
};
