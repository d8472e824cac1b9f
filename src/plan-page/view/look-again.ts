import type { Plan, RisksSurvive } from '../../../planner/plan-types.ts';
import { h, type Mark } from '../../markup/h.ts';

/** What was said and does not sit together: to be looked at again before anything is built on it. */
export function lookAgain(plan: Plan): Mark | null {
  const list = plan.contradictions;
  if (list.length === 0) return null;
  return h(
    'aside',
    { class: 'caution', 'aria-label': 'Look again' },
    h('p', { class: 'caution-title' }, 'Look again'),
    h(
      'ul',
      {},
      list.map((c) => h('li', {}, c.leastSurprising === null ? c.say : `${c.say} ${c.leastSurprising.say}`)),
    ),
  );
}

const NUMBERS = ['none', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten'];

/** How firm the top of the list of risks is, in words. */
export function topFirmness(survives: RisksSurvive | null): Mark | null {
  if (survives === null) return null;
  const { first, stay } = survives;
  const word = (n: number): string => NUMBERS[n] ?? String(n);
  const kept = Math.min(first, Math.round(stay));
  const rest =
    kept === first
      ? 'the same ones stand at the top'
      : `${word(kept)} of them stay there on average, so take the next few as seriously`;
  return h(
    'p',
    { class: 'small quiet' },
    `By weight over all four groups, of the first ${word(first)}: with every figure drawn anew within its range, ${rest}.`,
  );
}
