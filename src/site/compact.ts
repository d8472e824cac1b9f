import type { Base } from '../../knowledge/schema/base.ts';

/** The base as the planner needs it: without the prose, which stands on the entries' own pages.
 * Everything keeps its shape and its hash, so the same functions take either. */
export function compactBase(base: Base): Base {
  return {
    ...base,
    systems: base.systems.map((s) => ({ ...s, body: '', answer: '' })),
    materials: base.materials.map((m) => ({
      ...m,
      body: '',
      answer: '',
      also: [],
      know: [],
      lookAlikes: [],
      hazards: [],
      papers: [],
      inUse: undefined,
      regions: undefined,
    })),
    failures: base.failures.map((f) => ({
      ...f,
      body: '',
      answer: '',
      mechanism: '',
      consequence: '',
      symptoms: [],
      trade: [],
      rivals: [],
      soundRepair: '',
      coverUp: undefined,
      upkeep: undefined,
    })),
    checks: base.checks.map((c) => ({ ...c, body: '', steps: [], never: [], cannotTell: [] })),
    eras: [],
    terms: [],
    chains: [],
    rulesThen: [],
    sources: base.sources.map((s) => ({ ...s, publisher: '', year: null, url: null, note: undefined })),
  };
}
