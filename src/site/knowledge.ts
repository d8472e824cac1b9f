import { join } from 'node:path';
import { sourcesNamed } from '../../knowledge/rules/references.ts';
import type { Base } from '../../knowledge/schema/base.ts';
import { readKnowledge } from '../knowledge/read.ts';

/** The knowledge base as the site's pages read it: read once a build, with the links between entries. */
export const base: Base = readKnowledge(join(process.cwd(), 'knowledge')).base;

export type SystemEntry = Base['systems'][number];
export type MaterialEntry = Base['materials'][number];
export type FailureEntry = Base['failures'][number];
export type CheckEntry = Base['checks'][number];
export type EraEntry = Base['eras'][number];
export type ClueEntry = Base['clues'][number];
export type QuestionEntry = Base['questions'][number];

const byId = <T extends { id: string }>(list: T[]): Map<string, T> => new Map(list.map((e) => [e.id, e]));

export const systems = byId(base.systems);
export const materials = byId(base.materials);
export const failures = byId(base.failures);
export const checks = byId(base.checks);
export const sources = byId(base.sources);
export const papers = byId(base.papers);
export const stops = new Map<string, Base['stops'][number]>(base.stops.map((s) => [s.id, s]));

export const materialsOf = (system: string): MaterialEntry[] =>
  base.materials.filter((m) => m.system === system);
export const failuresOf = (system: string): FailureEntry[] =>
  base.failures.filter((f) => f.system === system);
export const cluesOf = (system: string): ClueEntry[] => base.clues.filter((c) => c.system === system);
export const questionsOf = (system: string): QuestionEntry[] =>
  base.questions.filter((q) => q.systems.includes(system));

/** Checks that can bring a failure mode to light, the surest first. */
export const checksFor = (failure: string): { check: CheckEntry; sensitivity: number }[] =>
  base.checks
    .flatMap((check) =>
      check.finds.filter((f) => f.failure === failure).map((f) => ({ check, sensitivity: f.sensitivity })),
    )
    .sort((a, b) => b.sensitivity - a.sensitivity);

/** Failure modes that a material takes part in. */
export const failuresOfMaterial = (material: string): FailureEntry[] =>
  base.failures.filter((f) => f.causes.some((c) => c.of?.includes(material)));

/** Periods in which a system, or a failure mode, is told of. */
export const erasWith = (failure: string): EraEntry[] => base.eras.filter((e) => e.wrong.includes(failure));

/** What each source is used for: the files that name it. */
export const usesOfSource: Map<string, string[]> = (() => {
  const uses = new Map<string, Set<string>>();
  for (const { file, source } of sourcesNamed(base)) {
    const set = uses.get(source) ?? new Set<string>();
    set.add(file);
    uses.set(source, set);
  }
  return new Map([...uses].map(([id, files]) => [id, [...files].sort()]));
})();
