import type { Base, Finding } from '../../knowledge/schema/base.ts';
import { compileBase } from './compile.ts';

/** The base for a command that is to give an answer. Faulty entries are left out and counted on standard
 * error; without systems, checks, stops or places there is nothing to plan with, and it refuses. */
export async function loadBase(warn: (line: string) => void): Promise<{ base: Base; findings: Finding[] }> {
  const { base, findings } = await compileBase();
  const missing = (['systems', 'materials', 'failures', 'checks', 'stops'] as const).filter(
    (kind) => base[kind].length === 0,
  );
  if (base.places.states.length === 0 || missing.length > 0) {
    const what = [...missing, ...(base.places.states.length === 0 ? ['places'] : [])].join(', ');
    throw new Error(`the knowledge base has no ${what}; see datestone base for what is wrong with it`);
  }
  if (findings.length > 0)
    warn(
      `the knowledge base has ${findings.length} faults (datestone base lists them); going on without them`,
    );
  return { base, findings };
}
