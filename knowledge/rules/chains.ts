import type { Finding } from '../schema/base.ts';
import { fileOf, type Rule } from './rule.ts';

/** A chain that names a suspect must lead to a look that can find it. */
export const chains: Rule = {
  name: 'chains',
  must: 'Every suspect of a diagnosis chain is found by one of the checks it sends you to.',
  run(base) {
    const findings: Omit<Finding, 'rule'>[] = [];
    const finds = new Map(base.checks.map((c) => [c.id, new Set(c.finds.map((f) => f.failure))]));
    for (const chain of base.chains)
      for (const { failure } of chain.suspect)
        if (!chain.next.some(({ check }) => finds.get(check)?.has(failure)))
          findings.push({
            file: fileOf('chains', chain.id),
            field: 'next',
            problem: `suspects ${failure}, but none of its checks finds that`,
            fix: `send to one of: ${checksFinding(finds, failure) || 'a check that finds it'}`,
          });
    return findings;
  },
};

function checksFinding(finds: Map<string, Set<string>>, failure: string): string {
  return [...finds]
    .filter(([, found]) => found.has(failure))
    .map(([check]) => check)
    .join(', ');
}
