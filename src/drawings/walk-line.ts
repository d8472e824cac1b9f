import type { Plan, WalkCheck, WalkStop } from '../../planner/plan-types.ts';
import { h, type Mark } from '../markup/h.ts';
import { px } from './figure.ts';

/** The walk as a strip cut into hours, so that it reads on a phone: a row an hour, a lane a person, numbers as in
 * the list below it. Gates are triangles over the check they hold up; a ring is a check that waited for another;
 * a broken line within a stop is standing idle. */
const WIDTH = 380;
const LEFT = 34;
const RIGHT = 376;
const LANE = 30;
const TICKS = 22;
const BETWEEN = 12;
const HOUR = 60;
/** Minutes between two checks that are taken for standing idle, where the stop says that somebody waits. */
const IDLE = 0.5;

interface Piece {
  row: number;
  from: number;
  to: number;
}

export function walkLine(walk: Plan['walk'], people: number, label: string): Mark {
  const end = Math.max(HOUR, ...walk.stops.map((s) => s.start + s.minutes));
  const rows = Math.ceil(end / HOUR);
  const height = TICKS + people * LANE + BETWEEN;
  const laneTop = (row: number, person: number): number =>
    row * height + TICKS + (Math.min(person, people) - 1) * LANE;
  return h(
    'svg',
    {
      class: 'figure walk-line',
      viewBox: `0 0 ${WIDTH} ${rows * height}`,
      role: 'img',
      'aria-label': label,
    },
    Array.from({ length: rows }, (_, row) => hourRule(row, row * height, people)),
    walk.stops.map((stop, i) => stopMarks(stop, i + 1, (row) => laneTop(row, stop.person))),
    walk.stops.map((stop) =>
      stop.checks.map((check) => [
        check.gate.length > 0 && gateMark(check, (row) => laneTop(row, stop.person)),
        check.waits.length > 0 && againMark(check, (row) => laneTop(row, stop.person)),
      ]),
    ),
  );
}

const x = (minute: number): number => LEFT + ((RIGHT - LEFT) * minute) / HOUR;

/** A span of minutes cut at the full hours; minutes count from the hour. */
function pieces(from: number, to: number): Piece[] {
  const list: Piece[] = [];
  for (let row = Math.floor(from / HOUR); row * HOUR < to; row++) {
    const piece = { row, from: Math.max(0, from - row * HOUR), to: Math.min(HOUR, to - row * HOUR) };
    if (piece.to > piece.from) list.push(piece);
  }
  return list;
}

function hourRule(row: number, top: number, people: number): Mark {
  const y = top + TICKS;
  return h(
    'g',
    {},
    h('text', { x: 2, y: top + 16, class: 'figure-strong' }, `${row}:00`),
    [0, 15, 30, 45, 60].map((m) => [
      h('path', { d: `M${px(x(m))} ${y - 7}V${y + people * LANE}`, class: 'thin' }),
      m > 0 && m < HOUR && h('text', { x: px(x(m)), y: top + 12, 'text-anchor': 'middle' }, `:${m}`),
    ]),
    Array.from({ length: people }, (_, lane) => [
      h('path', { d: `M${LEFT} ${y + (lane + 1) * LANE}H${RIGHT}`, class: 'thin' }),
      people > 1 && h('text', { x: 8, y: y + lane * LANE + 20 }, String.fromCharCode(65 + lane)),
    ]),
  );
}

function stopMarks(stop: WalkStop, number: number, top: (row: number) => number): Mark[] {
  const parts = pieces(stop.start, stop.start + stop.minutes);
  const widest = parts.reduce((best, p) => (p.to - p.from > best.to - best.from ? p : best), {
    row: 0,
    from: 0,
    to: 0,
  });
  const idle = idleSpans(stop).flatMap(({ from, to }) => pieces(from, to));
  return [
    ...parts.map((piece) => {
      const left = x(piece.from);
      const width = x(piece.to) - left;
      return h(
        'g',
        {},
        h('rect', { x: px(left), y: top(piece.row) + 7, width: px(width), height: LANE - 10, class: 'cut' }),
        piece === widest &&
          width >= (number > 9 ? 18 : 11) &&
          h(
            'text',
            { x: px(left + width / 2), y: top(piece.row) + 22, 'text-anchor': 'middle' },
            String(number),
          ),
      );
    }),
    ...idle.map((piece) =>
      h('path', {
        d: `M${px(x(piece.from))} ${top(piece.row) + 11}H${px(x(piece.to))}`,
        class: 'idle-line',
      }),
    ),
  ];
}

/** Where somebody stands idle at a stop that says so: the gaps between its checks, and before the first. */
export function idleSpans(stop: WalkStop): { from: number; to: number }[] {
  if (stop.waits.length === 0) return [];
  const spans: { from: number; to: number }[] = [];
  let free = stop.start;
  for (const check of [...stop.checks].sort((a, b) => a.start - b.start)) {
    if (check.start - free > IDLE) spans.push({ from: free, to: check.start });
    free = Math.max(free, check.start + check.minutes);
  }
  return spans;
}

function gateMark(check: WalkCheck, top: (row: number) => number): Mark {
  const row = Math.floor(check.start / HOUR);
  const at = x(check.start - row * HOUR);
  return h('path', { d: `M${px(at)} ${top(row) + 8}l-5 -8h10z`, class: 'gate-mark' });
}

function againMark(check: WalkCheck, top: (row: number) => number): Mark {
  const row = Math.floor(check.start / HOUR);
  const at = x(check.start - row * HOUR);
  return h('circle', { cx: px(at), cy: top(row) + LANE - 3, r: 4, class: 'again-mark' });
}
