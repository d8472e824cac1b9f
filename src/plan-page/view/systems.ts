import { oddsInWords } from '../../../planner/condition/odds-words.ts';
import type { MaterialBelief, Plan, Quantiles, Replaced, SystemBelief } from '../../../planner/plan-types.ts';
import { type Child, fold, h, type Mark } from '../../markup/h.ts';
import { toEntry } from '../../site/link.ts';
import { weightiest } from '../strips.ts';
import type { PlanWords } from '../words.ts';
import { folded } from './folded.ts';
import { materialName, oddsList, type Portion, percent } from './odds-list.ts';
import { whyList } from './why.ts';

const SHOWN = 10;
/** Odds of partial renewal from which they stand in the row. */
const WORTH_SAYING = 0.35;

/** What a range of odds holds, where the figures stand. */
const RANGE_WORDS =
  'In brackets, the range that should hold the share of such houses four times in five: how well it is known, not how one house differs from the next.';

/** Schedule of systems: what is in reach and what is hidden, in words; figures on opening. Those that weigh most
 * stand in sight, the rest is folded, and open on paper. */
export function systemsView(plan: Plan, words: PlanWords, lean = false): (Mark | null)[] {
  const main = plan.house.parts[0]?.name ?? '';
  const first = weightiest(plan).slice(0, SHOWN);
  const shown = plan.systems.filter((s) => s.part === main && first.includes(s.system));
  const rest = plan.systems.filter((s) => !shown.includes(s));
  return [
    schedule(shown, words, main, lean),
    folded(
      'rest-systems',
      rest.length > 0 ? `${rest.length} more, which weigh less here` : null,
      lean ? null : () => schedule(rest, words, main, lean),
      true,
    ),
  ];
}

function schedule(systems: SystemBelief[], words: PlanWords, main: string, lean: boolean): Mark {
  return h(
    'div',
    { class: 'schedule' },
    h(
      'div',
      { class: 'schedule-row schedule-head', 'aria-hidden': 'true' },
      h('span', {}, 'System'),
      h('span', {}, 'In reach'),
      h('span', {}, 'Hidden'),
    ),
    systems.map((system) => systemRow(system, words, main, lean)),
  );
}

function systemRow(s: SystemBelief, words: PlanWords, main: string, lean: boolean): Mark {
  const other = s.part !== main;
  const oneKind = words.systems[s.system]?.hidden === null;
  const dead = s.materials
    .filter((m) => m.disconnected >= 0.12)
    .sort((a, b) => b.disconnected - a.disconnected);
  return h(
    'section',
    { class: 'schedule-row', 'aria-label': other ? `${s.title}, ${s.part}` : s.title },
    h(
      'div',
      { class: 'schedule-name' },
      h('h3', {}, h('a', { href: toEntry('systems', s.system) }, s.title)),
      other && h('p', { class: 'quiet' }, s.part),
      s.replaced !== null &&
        s.replaced.partly >= WORTH_SAYING &&
        h('p', { class: 'quiet' }, `renewed in part only: ${oddsInWords(s.replaced.partly)}`),
      s.present < 0.9 && h('p', { class: 'quiet' }, `there at all: ${oddsInWords(s.present)}`),
    ),
    h('div', {}, h('p', { class: 'cell-name' }, 'In reach'), oddsList(s.materials, 'reachable')),
    oneKind
      ? h('div', {}, h('p', { class: 'quiet small' }, 'All of it is in reach.'))
      : h('div', {}, h('p', { class: 'cell-name' }, 'Hidden'), oddsList(s.materials, 'hidden')),
    fold(
      { class: 'schedule-more', 'data-key': `system-${s.system}-${s.part}` },
      h('summary', {}, 'Figures and why', h('span', { class: 'hidden-words' }, `: ${s.title}`)),
      () => [
        dead.length > 0 &&
          h(
            'p',
            { class: 'small' },
            'May still be there, dead or covered: ',
            dead.map((m, i) => [i > 0 && ', ', m.title, ` (${oddsInWords(m.disconnected)})`]),
            '. In use, disconnected and removed are three things; settle which.',
          ),
        s.replaced !== null && replacedView(s.replaced),
        !lean && [h('p', { class: 'small' }, RANGE_WORDS), figuresTable(s, oneKind)],
        whyList(s.why, words),
      ],
    ),
  );
}

/** How much was renewed, in words: what was put in first often stays where no hand reaches. */
function replacedView(r: Replaced): Mark {
  return h(
    'p',
    { class: 'small' },
    `As first put in, throughout: ${oddsInWords(r.allFirst)}. What is hidden as first put in, what is in reach later: ${oddsInWords(r.partly)}. All of it later: ${oddsInWords(r.allSince)}. Two materials side by side: ${oddsInWords(r.twoMaterials)}.`,
  );
}

function figuresTable(s: SystemBelief, oneKind: boolean): Mark {
  const rows = s.materials
    .filter((m) => Math.max(m.anywhere, m.reachable, m.hidden, m.disconnected) >= 0.005)
    .sort((a, b) => b.anywhere - a.anywhere);
  const head = oneKind
    ? ['Material', 'In use', 'Dead or covered', 'Put in']
    : ['Material', 'In reach', 'Hidden', 'Anywhere', 'Dead or covered', 'Put in, in reach', 'Put in, hidden'];
  return h(
    'div',
    { class: 'scroll', tabindex: 0, role: 'group', 'aria-label': `Figures for ${s.title}` },
    h(
      'table',
      {},
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
        rows.map((m) => figuresRow(m, oneKind)),
      ),
    ),
  );
}

function figuresRow(m: MaterialBelief, oneKind: boolean): Mark {
  const cells = oneKind
    ? [ranged(m, 'reachable'), percent(m.disconnected), span(m.installed.reachable)]
    : [
        ranged(m, 'reachable'),
        ranged(m, 'hidden'),
        ranged(m, 'anywhere'),
        percent(m.disconnected),
        span(m.installed.reachable),
        span(m.installed.hidden),
      ];
  return h(
    'tr',
    {},
    h('th', { scope: 'row' }, materialName(m)),
    cells.map((cell) => h('td', {}, cell)),
  );
}

/** Odds with their range, as in "41% (28 to 55)"; the range is left out where it says nothing more. */
function ranged(m: MaterialBelief, portion: Portion): Child {
  const [low, high] = m.range[portion].map((p) => Math.round(p * 100));
  const odds = percent(m[portion]);
  return low === high ? odds : [odds, ' ', kept(`(${low} to ${high})`)];
}

function span(years: Quantiles | null): Child {
  if (years === null) return '';
  if (years.p10 === years.p90) return String(years.p50);
  return [kept(`${years.p10} to ${years.p90},`), ' ', kept(`middle ${years.p50}`)];
}

/** Words that stay on one line. */
const kept = (words: string): Mark => h('span', { class: 'kept' }, words);
