import type { Base } from '../../knowledge/schema/base.ts';
import type { Plan } from '../../planner/plan-types.ts';
import { type Due, dueFor } from './due.ts';
import { type Strip, stripsFor } from './strips.ts';

/** What a cure costs a typical house, in dollars of a year. */
export type Cost = NonNullable<Base['failures'][number]['cost']>;

/** What the views need to say of a plan beyond its ids: only the entries that the plan names. */
export interface PlanWords {
  /** Name of the state, null where it is not known. */
  place: string | null;
  papers: Record<string, { title: string; lookFor: string; cannotShow: string }>;
  failures: Record<
    string,
    { title: string; say: string; call: string; balks: string[]; tellNow: string | null; cost: Cost | null }
  >;
  systems: Record<string, { reachable: string; hidden: string | null }>;
  materials: Record<string, { stays: string | null; replacedBy: string | null }>;
  checks: Record<string, { title: string; answer: string; limits: string }>;
  sources: Record<string, string>;
  /** What comes due by age and wear, soonest first. */
  due: Due[];
  /** What new houses had, for the systems that matter most here. */
  strips: Strip[];
}

export function wordsFor(base: Base, plan: Plan): PlanWords {
  const asked = new Set(plan.questions.flatMap((q) => q.papers));
  const risks = new Set([
    ...plan.risks.map((r) => r.failure),
    ...plan.walk.stops.flatMap((s) => s.checks.flatMap((c) => c.for)),
  ]);
  const systems = new Set(plan.systems.map((s) => s.system));
  const materials = new Set(plan.systems.flatMap((s) => s.materials.map((m) => m.material)));
  const done = new Set(plan.walk.stops.flatMap((s) => s.checks.map((c) => c.check)));
  const named = new Set(
    [...plan.systems, ...plan.risks].flatMap((one) => one.why.flatMap((why) => why.source)),
  );
  return {
    place: base.places.states.find((s) => s.code === plan.house.place.state)?.name ?? null,
    papers: pick(base.papers, asked, ({ title, lookFor, cannotShow }) => ({ title, lookFor, cannotShow })),
    failures: pick(base.failures, risks, (f) => ({
      title: f.title,
      say: f.say,
      call: f.call,
      balks: f.balks,
      cost: f.cost ?? null,
      tellNow: f.tellNow === undefined ? null : `Tell ${f.tellNow.whom} now: ${f.tellNow.say}`,
    })),
    systems: pick(base.systems, systems, ({ portions }) => portions),
    materials: pick(base.materials, materials, (m) => ({
      stays: m.usuallyStays ?? null,
      replacedBy: m.usuallyReplacedBy ?? null,
    })),
    checks: pick(base.checks, done, ({ title, answer, limits }) => ({ title, answer, limits })),
    sources: pick(base.sources, named, ({ title }) => title),
    due: dueFor(base, plan),
    strips: stripsFor(base, plan),
  };
}

function pick<T extends { id: string }, U>(
  list: T[],
  ids: Set<string>,
  of: (entry: T) => U,
): Record<string, U> {
  return Object.fromEntries(list.filter((e) => ids.has(e.id)).map((e) => [e.id, of(e)]));
}
