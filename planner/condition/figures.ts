import type { Entry } from '../../knowledge/schema/base.ts';
import type { Grade } from '../../knowledge/schema/common.ts';
import type { Failure } from '../../knowledge/schema/failure.ts';
import { normalDraws } from '../numerics/sampling.ts';

/** What the draws of a failure mode are made with, the same in every plan. */
export interface Figures {
  /** Standard deviations from best of each cause's figure, one a draw. */
  causes: Float64Array[];
  /** The same for the effect of place. */
  place: Float64Array;
  /** The weakest grade of the figures behind the odds. */
  grade: Grade;
}

const made = new WeakMap<Entry<Failure>, Figures>();

export function figuresOf(failure: Entry<Failure>): Figures {
  const ready = made.get(failure);
  if (ready !== undefined) return ready;
  const figures = {
    causes: failure.causes.map((_, i) => normalDraws(`${failure.id} cause ${i}`)),
    place: normalDraws(`${failure.id} place`),
    grade: weakest(failure),
  };
  made.set(failure, figures);
  return figures;
}

const GRADES: Grade[] = ['measured', 'published', 'practice', 'memory'];

function weakest(failure: Failure): Grade {
  const figures = failure.causes.map((c) =>
    c.cause === 'built-in' ? c.share : c.cause === 'ageing' ? c.half : c.base,
  );
  const worst = Math.max(...figures.map((f) => GRADES.indexOf(f.grade)));
  return GRADES[worst] ?? 'memory';
}
