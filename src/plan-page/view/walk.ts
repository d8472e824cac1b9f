import type { Plan, WalkCheck, WalkStop } from '../../../planner/plan-types.ts';
import { h, type Mark } from '../../markup/h.ts';
import { toEntry } from '../../site/link.ts';
import { SCOPE_WORDS } from '../../site/words.ts';
import type { PlanWords } from '../words.ts';
import { clock, duration } from './clock.ts';

/** The walk, stop by stop, on a line of time. */
export function walkView(plan: Plan, words: PlanWords): (Mark | null)[] {
  const { walk } = plan;
  const team = plan.house.visit.team > 1;
  return [
    walk.feasible ? null : tooShort(plan),
    h(
      'p',
      {},
      walk.feasible
        ? `Uses ${duration(walk.minutesUsed)} of ${duration(walk.minutes)}. What is always done takes ${duration(walk.minutesNeeded)}. Times count from arrival.`
        : 'Times count from arrival.',
    ),
    walk.tools.length > 0
      ? h(
          'details',
          { 'data-key': 'tools', open: false },
          h('summary', {}, `To pack: ${walk.tools.length} things`),
          h('ul', { class: 'columns' }, walk.tools.map((tool) => h('li', {}, tool))),
        )
      : null,
    h('ol', { class: 'walk' }, walk.stops.map((stop) => stopItem(stop, words, team))),
  ];
}

/** The plan refuses to shave the house: it says how long the visit must be. */
export function tooShort(plan: Plan): Mark {
  const { walk } = plan;
  return h(
    'div',
    { class: 'caution', role: 'note' },
    h(
      'p',
      { class: 'caution-title' },
      `${duration(walk.minutes)} is too short for this house: it needs ${duration(walk.minutesNeeded)}`,
    ),
    h(
      'p',
      {},
      'The usual scope and the checks that guard life do not fit. They are not shortened to fit: ask for more time, bring a partner, or agree in writing on a second visit.',
    ),
  );
}

function stopItem(stop: WalkStop, words: PlanWords, team: boolean): Mark {
  return h(
    'li',
    { class: 'stop' },
    h(
      'div',
      { class: 'stop-head' },
      h('span', { class: 'time' }, clock(stop.start)),
      h('h3', {}, stop.title),
      h(
        'span',
        { class: 'quiet small' },
        `${duration(stop.minutes)}${team ? `, person ${stop.person}` : ''}`,
      ),
    ),
    h('ol', { class: 'stop-checks' }, stop.checks.map((check) => checkItem(check, words))),
  );
}

function checkItem(check: WalkCheck, words: PlanWords): Mark {
  const reasons = check.for.map((id) => words.failures[id]?.title ?? id);
  return h(
    'li',
    {},
    h(
      'div',
      { class: 'check-line' },
      h('a', { href: toEntry('checks', check.check) }, check.title),
      h('span', { class: 'quiet small' }, `${Math.round(check.minutes)} min${check.people > 1 ? ', two people' : ''}`),
    ),
    check.gate.length > 0 &&
      h(
        'ul',
        { class: 'gates' },
        check.gate.map((g) => h('li', {}, h('strong', {}, 'Stop if '), g.stopIf, ': ', g.do, '.')),
      ),
    check.permission !== null &&
      h('p', { class: 'small leave' }, h('strong', {}, `Leave of the ${check.permission.of}`), ` to ${check.permission.what}.`),
    check.waits.map((w) => h('p', { class: 'small' }, h('strong', {}, `Wait ${w.minutes} minutes`), `: ${w.why}.`)),
    (reasons.length > 0 || check.tools.length > 0) &&
      h(
        'details',
        { 'data-key': `check-${check.check}-${check.start}` },
        h('summary', { class: 'small' }, 'For what, with what', h('span', { class: 'hidden-words' }, `: ${check.title}`)),
        reasons.length > 0 && h('p', { class: 'small' }, `For: ${reasons.slice(0, 6).join('; ')}.`),
        check.tools.length > 0 && h('p', { class: 'small' }, `With: ${check.tools.join(', ')}.`),
        h('p', { class: 'small quiet' }, `Standing: ${SCOPE_WORDS[check.scope] ?? check.scope}.`),
      ),
  );
}
