import type { Plan, Risk } from '../../../planner/plan-types.ts';
import { costChart, inDollars } from '../../drawings/cost-chart.ts';
import { dueChart } from '../../drawings/due-chart.ts';
import { fold, h, type Mark } from '../../markup/h.ts';
import { toEntry } from '../../site/link.ts';
import { GRADE_WORDS } from '../../site/words.ts';
import { type Due, HORIZON } from '../due.ts';
import type { Cost, PlanWords } from '../words.ts';
import { weightOf } from './odds-list.ts';

const MOST_COSTS = 14;
/** Letters that fit in one line over a bar. */
const LETTERS = 44;

/** What comes due and what cures have cost: closed until somebody wants it, on no sheet for the buyer, and no estimate
 * for this house. */
export function moneyView(plan: Plan, words: PlanWords): Mark {
  return fold(
    { class: 'money', 'data-key': 'money' },
    h('summary', {}, 'For you alone: what comes due, and what cures have cost'),
    () => [
      h(
        'div',
        { class: 'caution', role: 'note' },
        h('p', { class: 'caution-title' }, 'No estimate for this house'),
        h(
          'p',
          {},
          'Some states and most insurers frown on an inspector who gives costs or remaining life. This is for your own planning: it is on no sheet for the buyer, and it prints only while it stands open.',
        ),
      ),
      dueView(words.due, plan),
      costView(plan, words),
    ],
  );
}

function dueView(due: Due[], plan: Plan): (Mark | null)[] {
  if (due.length === 0) return [];
  const { asOf } = plan.house;
  const main = plan.house.parts[0]?.name;
  const name = (one: Due): string => (one.part === main ? one.title : `${one.title}, ${one.part}`);
  const year = (ahead: number): string =>
    ahead > HORIZON ? `after ${asOf + HORIZON}` : `by ${asOf + Math.max(1, Math.round(ahead))}`;
  return [
    h('h3', {}, 'What comes due by age and wear'),
    h(
      'figure',
      { class: 'drawing' },
      dueChart(
        due.map((one) => ({ ...one, words: name(one) })),
        asOf,
        HORIZON,
        `Years in which ${due.length} things come due; the table says the same.`,
      ),
      h(
        'figcaption',
        {},
        'By the upright half of such things are renewed; by the left end one in ten, by the right end nine in ten. From the years they were likely put in and the lives of their kind. It does not know the state of these: a look decides.',
      ),
    ),
    table(
      'The same in years',
      ['What', 'One in ten', 'Half', 'Nine in ten', 'Life known from'],
      due.map((one) => [
        h(
          'span',
          {},
          h('a', { href: toEntry('systems', one.system) }, name(one)),
          h('span', { class: 'quiet' }, `, likeliest ${lower(one.material)}`),
        ),
        year(one.early),
        year(one.middle),
        year(one.late),
        GRADE_WORDS[one.grade].word,
      ]),
    ),
  ];
}

/** Risks worth money, the weightiest first, with what a cure has cost a typical house. */
function costView(plan: Plan, words: PlanWords): (Mark | null)[] {
  const rows = costRows(plan, words);
  if (rows.length === 0) return [];
  return [
    h('h3', {}, 'What cures have cost'),
    h(
      'figure',
      { class: 'drawing' },
      costChart(
        rows.map(({ risk, cost }) => ({
          words: shortened(risk.title),
          low: cost.low,
          high: cost.high,
          weight: weightOf(risk.probability),
        })),
        `What cures have cost, for ${rows.length} risks; the table says the same.`,
      ),
      h(
        'figcaption',
        {},
        'From low to high for a typical house, each step ten times the last. The heavier the line, the likelier the thing is here. The weightiest risks come first.',
      ),
    ),
    table(
      'The same in dollars',
      ['What', 'Odds here', 'A cure on a typical house', 'Known from'],
      rows.map(({ risk, cost }) => [
        h('a', { href: toEntry('failures', risk.failure) }, risk.title),
        risk.odds,
        `${inDollars(cost.low)} to ${inDollars(cost.high)} in ${cost.year}`,
        GRADE_WORDS[cost.grade].word,
      ]),
    ),
  ];
}

export function costRows(plan: Plan, words: PlanWords): { risk: Risk; cost: Cost }[] {
  const seen = new Set<string>();
  return plan.risks
    .filter((r) => r.soon === 'settle-first' || r.soon === 'budget-for')
    .sort((a, b) => b.priority - a.priority || (a.failure < b.failure ? -1 : 1))
    .flatMap((risk) => {
      const cost = words.failures[risk.failure]?.cost ?? null;
      if (cost === null || seen.has(risk.failure)) return [];
      seen.add(risk.failure);
      return [{ risk, cost }];
    })
    .slice(0, MOST_COSTS);
}

const lower = (words: string): string => words.charAt(0).toLowerCase() + words.slice(1);

function shortened(title: string): string {
  if (title.length <= LETTERS) return title;
  return `${title.slice(0, LETTERS).replace(/\s+\S*$/, '')} …`;
}

function table(caption: string, head: string[], rows: (Mark | string)[][]): Mark {
  return h(
    'div',
    { class: 'scroll', tabindex: 0, role: 'group', 'aria-label': caption },
    h(
      'table',
      {},
      h('caption', {}, caption),
      h(
        'thead',
        {},
        h(
          'tr',
          {},
          head.map((name) => h('th', { scope: 'col' }, name)),
        ),
      ),
      h(
        'tbody',
        {},
        rows.map(([first, ...rest]) =>
          h(
            'tr',
            {},
            h('th', { scope: 'row' }, first),
            rest.map((cell) => h('td', {}, cell)),
          ),
        ),
      ),
    ),
  );
}
