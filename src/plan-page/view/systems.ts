import { oddsInWords } from '../../../planner/condition/odds-words.ts';
import type { MaterialBelief, Plan, Quantiles, SystemBelief } from '../../../planner/plan-types.ts';
import { h, type Mark } from '../../markup/h.ts';
import { toEntry } from '../../site/link.ts';
import type { PlanWords } from '../words.ts';
import { materialName, oddsList, percent } from './odds-list.ts';
import { whyList } from './why.ts';

/** Schedule of systems: what is in reach and what is hidden, in words; figures on opening. */
export function systemsView(plan: Plan, words: PlanWords, lean = false): Mark {
  const main = plan.house.parts[0]?.name ?? '';
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
    plan.systems.map((system) => systemRow(system, words, main, lean)),
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
      s.present < 0.9 && h('p', { class: 'quiet' }, `there at all: ${oddsInWords(s.present)}`),
    ),
    h('div', {}, h('p', { class: 'cell-name' }, 'In reach'), oddsList(s.materials, 'reachable')),
    oneKind
      ? h('div', {}, h('p', { class: 'quiet small' }, 'All of it is in reach.'))
      : h('div', {}, h('p', { class: 'cell-name' }, 'Hidden'), oddsList(s.materials, 'hidden')),
    h(
      'details',
      { class: 'schedule-more', 'data-key': `system-${s.system}-${s.part}` },
      h('summary', {}, 'Figures and why', h('span', { class: 'hidden-words' }, `: ${s.title}`)),
      dead.length > 0 &&
        h(
          'p',
          { class: 'small' },
          'May still be there, dead or covered: ',
          dead.map((m, i) => [i > 0 && ', ', m.title, ` (${oddsInWords(m.disconnected)})`]),
          '. In use, disconnected and removed are three things; settle which.',
        ),
      !lean && figuresTable(s, oneKind),
      whyList(s.why, words),
    ),
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
    ? [percent(m.reachable), percent(m.disconnected), span(m.installed.reachable)]
    : [
        percent(m.reachable),
        percent(m.hidden),
        percent(m.anywhere),
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

function span(years: Quantiles | null): string {
  if (years === null) return '';
  return years.p10 === years.p90 ? String(years.p50) : `${years.p10} to ${years.p90}, middle ${years.p50}`;
}
