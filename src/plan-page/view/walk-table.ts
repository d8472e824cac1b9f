import type { WalkStop } from '../../../planner/plan-types.ts';
import { h, type Mark } from '../../markup/h.ts';
import { clock, counted, duration } from './clock.ts';
import { gatesOf, letterOf } from './stop.ts';

/** The strip of hours as a table: when, where, who, and what holds a person up. */
export function walkTable(stops: WalkStop[], team: boolean): Mark {
  return h(
    'div',
    { class: 'scroll', tabindex: 0, role: 'group', 'aria-label': 'The walk as a table' },
    h(
      'table',
      { class: 'walk-table' },
      h(
        'thead',
        {},
        h(
          'tr',
          {},
          ['From', 'To', 'Stop', team && 'Who', 'Checks', 'Gates', 'Waits']
            .filter((name) => name !== false)
            .map((name) => h('th', { scope: 'col' }, name)),
        ),
      ),
      h(
        'tbody',
        {},
        stops.map((stop, i) =>
          h(
            'tr',
            {},
            h('td', {}, clock(stop.start)),
            h('td', {}, clock(stop.start + stop.minutes)),
            h('th', { scope: 'row' }, `${i + 1}. ${stop.title}`),
            team && h('td', {}, letterOf(stop)),
            h('td', {}, stop.checks.length),
            h('td', {}, gatesOf(stop).length),
            h('td', {}, waitsInWords(stop)),
          ),
        ),
      ),
    ),
  );
}

/** Idle minutes, and how many checks wait for something started before. */
function waitsInWords(stop: WalkStop): string {
  const idle = stop.waits.map((w) => `${duration(w.minutes)}: ${w.why}`);
  const again = stop.checks.filter((c) => c.waits.length > 0).length;
  return [...idle, ...(again > 0 ? [`${counted(again, 'check')} after a wait`] : [])].join('; ');
}
