import { h, type Mark } from '../markup/h.ts';
import { px } from './figure.ts';

/** Things and the years in which they come due: a line from one in ten to nine in ten, an upright at half. Lines that
 * go beyond the sheet end in an arrow. Names stand over their lines, so that it reads on a phone. */
const WIDTH = 380;
const LEFT = 6;
const RIGHT = 366;
const ROW = 38;
const HEAD = 6;
const FOOT = 30;

export interface DueRow {
  words: string;
  /** Years from now. */
  early: number;
  middle: number;
  late: number;
}

export function dueChart(rows: readonly DueRow[], asOf: number, horizon: number, label: string): Mark {
  const foot = HEAD + rows.length * ROW;
  const x = (ahead: number): number => LEFT + ((RIGHT - LEFT) * Math.min(ahead, horizon)) / horizon;
  const steps = Array.from({ length: Math.floor(horizon / 10) + 1 }, (_, i) => i * 10);
  return h(
    'svg',
    { class: 'figure due-chart', viewBox: `0 0 ${WIDTH} ${foot + FOOT}`, role: 'img', 'aria-label': label },
    steps.map((ahead) => h('path', { d: `M${px(x(ahead))} ${HEAD}V${foot}`, class: 'scale-line' })),
    rows.map((row, i) => rowMarks(row, HEAD + i * ROW, x, horizon)),
    h('path', { d: `M${LEFT} ${foot}H${RIGHT}`, class: 'base-line' }),
    steps.map((ahead, i) =>
      h(
        'text',
        {
          x: px(x(ahead)),
          y: foot + 18,
          'text-anchor': i === 0 ? 'start' : i === steps.length - 1 ? 'end' : 'middle',
        },
        String(asOf + ahead),
      ),
    ),
  );
}

function rowMarks(row: DueRow, top: number, x: (ahead: number) => number, horizon: number): Mark {
  const y = top + 27;
  const end = x(row.late);
  return h(
    'g',
    {},
    h('text', { x: LEFT, y: top + 16, class: 'row-words' }, row.words),
    h('path', { d: `M${px(x(row.early))} ${y}H${px(end)}`, class: 'range-line' }),
    row.late > horizon && h('path', { d: `M${px(end)} ${y - 6}l9 6l-9 6z`, class: 'gate-mark' }),
    h('path', { d: `M${px(x(row.middle))} ${y - 7}V${y + 7}`, class: 'rule-best' }),
  );
}
