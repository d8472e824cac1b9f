import type { Plan } from '../../../planner/plan-types.ts';
import { type Child, fold, h, type Mark } from '../../markup/h.ts';
import type { WalkMarks } from '../marks/walk-marks.ts';
import type { PlanWords } from '../words.ts';
import { looksView, questionsView } from './asks.ts';
import { duration } from './clock.ts';
import { folded } from './folded.ts';
import { houseFigure } from './house-figure.ts';
import { houseInWords } from './house-words.ts';
import { lookAgain, topFirmness } from './look-again.ts';
import { moneyView } from './money.ts';
import { oddsChart } from './odds-chart.ts';
import { risksView } from './risks.ts';
import { stripsView } from './strips.ts';
import { systemsView } from './systems.ts';
import { tooShort, walkView } from './walk.ts';

/** The whole plan. The same view is made at build for the first visit (no marks: lean, without what is folded
 * away, with nothing to press) and in the browser after it. */
export function planView(plan: Plan, words: PlanWords, marks: WalkMarks | null): Mark[] {
  const lean = marks === null;
  const parts = [
    part('risks', 'Risks, by how soon they matter', [
      risksView(plan, words, lean),
      topFirmness(plan.risksSurvive),
      lean ? null : folded('odds-chart', 'Odds against stakes, drawn', () => oddsChart(plan)),
      lean ? null : moneyView(plan, words),
    ]),
    part('built-with', 'What it was built with, and what is there now', [
      stripsView(plan, words.strips, lean),
      systemsView(plan, words, lean),
    ]),
    part('walk', 'The walk', walkView(plan, words, marks)),
    part('ask', 'Questions and papers', questionsView(plan, words, lean)),
    plan.looks.length > 0 ? part('before', 'Look for these before the visit', [looksView(plan.looks)]) : null,
    leftOut(plan),
  ];
  // That the time is too short stands in a place of its own.
  const mind = plan.cautions.filter((c) => c.about !== 'minutes');
  return [
    h(
      'header',
      { class: 'plan-head' },
      h('p', { class: 'house-line' }, houseInWords(plan.house, words.place)),
      plan.walk.feasible ? null : tooShort(plan),
      mind.length > 0 &&
        h(
          'aside',
          { class: 'caution', 'aria-label': 'Mind first' },
          h('p', { class: 'caution-title' }, 'Mind first'),
          h(
            'ul',
            {},
            mind.map((c) => h('li', {}, c.say)),
          ),
        ),
      lookAgain(plan),
      jump(plan),
      houseFigure(plan, words),
    ),
    h('div', { class: 'parts' }, parts),
  ];
}

function part(id: string, title: string, children: Child[]): Mark {
  return h(
    'section',
    { class: 'part', id, 'aria-labelledby': `${id}-title` },
    h('h2', { id: `${id}-title` }, title),
    children,
  );
}

function jump(plan: Plan): Mark {
  const ways = [
    ['risks', 'Risks'],
    ['built-with', 'Built with'],
    ['walk', plan.walk.feasible ? `Walk, ${duration(plan.walk.minutesUsed)}` : 'Walk'],
    ['ask', 'Questions'],
    ['before', 'Before the visit'],
  ] as const;
  return h(
    'nav',
    { class: 'jump screen-only', 'aria-label': 'In this plan' },
    ways.map(([id, words]) => h('button', { type: 'button', class: 'jump-to', 'data-jump': id }, words)),
  );
}

/** The inspector's own: what the plan leaves out, and why. It has no place in the client's record. */
function leftOut(plan: Plan): Mark | null {
  const list = plan.walk.leftOut;
  if (list.length === 0) return null;
  return fold(
    { class: 'left-out screen-only', 'data-key': 'left-out' },
    h('summary', {}, `For you alone: ${list.length} checks that this walk leaves out`),
    () =>
      h(
        'ul',
        {},
        list.map((c) => h('li', {}, `${c.title}, ${Math.round(c.minutes)} min: ${c.why}`)),
      ),
  );
}
