import { scaleLinear } from 'd3-scale';
import { area, curveMonotoneX, line } from 'd3-shape';
import type { Material } from '../../knowledge/schema/material.ts';
import { h, type Mark } from '../markup/h.ts';
import { px, round } from './figure.ts';
import { hatchDef, hatchFill } from './hatches.ts';

const WIDTH = 480;
const HEIGHT = 132;
const LEFT = 8;
const RIGHT = 472;
const TOP = 26;
const FOOT = 96;

type Years = Material['years'];

/** How common a material was in new work, year by year: a shape, not a measurement. */
export function yearStrip(years: Years, id: string, today: number): Mark {
  const start = Math.min(1850, Math.floor((years.first - 10) / 10) * 10);
  const x = scaleLinear([start, today + 5], [LEFT, RIGHT]);
  const y = scaleLinear([0, 1], [FOOT, TOP]);
  const points = outline(years, today);
  const fill = area<[number, number]>(
    (p) => round(x(p[0])),
    FOOT,
    (p) => round(y(p[1])),
  ).curve(curveMonotoneX);
  const edge = line<[number, number]>(
    (p) => round(x(p[0])),
    (p) => round(y(p[1])),
  ).curve(curveMonotoneX);
  return h(
    'svg',
    {
      class: 'figure year-strip',
      viewBox: `0 0 ${WIDTH} ${HEIGHT}`,
      role: 'img',
      'aria-label': yearsInWords(years),
    },
    h('defs', {}, hatchDef('brick', id)),
    ...ticks(start, today).map((year) =>
      h(
        'g',
        { class: year % 50 === 0 ? 'tick tick-main' : 'tick' },
        h('line', { x1: px(x(year)), x2: px(x(year)), y1: FOOT, y2: FOOT + (year % 50 === 0 ? 8 : 4) }),
        year % 50 === 0 &&
          h(
            'text',
            { x: px(x(year)), y: FOOT + 24, 'text-anchor': x(year) < LEFT + 20 ? 'start' : 'middle' },
            String(year),
          ),
      ),
    ),
    h('path', { d: fill(points) ?? '', fill: hatchFill('brick', id) }),
    h('path', { d: edge(points) ?? '', class: 'edge' }),
    h('line', { x1: LEFT, x2: RIGHT, y1: FOOT, y2: FOOT, class: 'base-line' }),
    ...marks(years, today).map(({ year, anchor, words }) =>
      h(
        'text',
        {
          x: px(Math.min(Math.max(x(year), LEFT), RIGHT)),
          y: TOP - 9,
          'text-anchor': anchor,
          class: 'figure-strong',
        },
        words,
      ),
    ),
  );
}

/** The two years that matter most to a reader: common from, and hardly put in after. */
function marks(years: Years, today: number): { year: number; anchor: string; words: string }[] {
  const end = years.last ?? years.decline;
  const from = { year: years.common, anchor: 'end', words: `from ${years.common}` };
  if (end === null || end >= today) return [{ ...from, anchor: 'middle' }];
  return [from, { year: end, anchor: 'start', words: `to ${end}` }];
}

function outline(years: Years, today: number): [number, number][] {
  const [peakFrom, peakTo] = years.peak;
  const end = Math.min(peakTo ?? today, today);
  const raw: [number, number][] = [[years.first, 0]];
  if (years.common > years.first && years.common < peakFrom) raw.push([years.common, 0.4]);
  raw.push([Math.max(peakFrom, years.first + 0.5), 1]);
  if (end > peakFrom) raw.push([end, 1]);
  const decline = years.decline;
  if (decline !== null && decline > end) raw.push([decline, 0.6]);
  const last = years.last ?? (decline === null ? null : decline + 20);
  if (last !== null && last > end) raw.push([last, 0]);
  else if (end < today && last === null) raw.push([today, 0.5]);
  return raw.filter((p, i) => i === 0 || p[0] > (raw[i - 1]?.[0] ?? -1));
}

function ticks(start: number, today: number): number[] {
  const list: number[] = [];
  for (let year = Math.ceil(start / 10) * 10; year <= today; year += 10) list.push(year);
  return list;
}

/** The strip in words, for those who can't see it and for the line under it. */
export function yearsInWords(years: Years): string {
  const [from, to] = years.peak;
  const heyday =
    to === null ? `at its height from ${from} to this day` : `at its height from ${from} to ${to}`;
  const close =
    years.last !== null
      ? `hardly put in after ${years.last}`
      : years.decline !== null
        ? `on the wane since ${years.decline}`
        : 'still put in';
  return `First seen about ${years.first}, common from ${years.common}, ${heyday}, ${close}.`;
}
