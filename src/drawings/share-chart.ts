import { scaleLinear } from 'd3-scale';
import { area } from 'd3-shape';
import type { ShareTable } from '../../knowledge/schema/system.ts';
import { h, type Mark } from '../markup/h.ts';
import { px, round } from './figure.ts';
import { type Hatch, hatchDef, SERIES } from './hatches.ts';

const WIDTH = 520;
const HEIGHT = 300;
const LEFT = 40;
const RIGHT = 508;
const TOP = 12;
const FOOT = 262;
/** An area takes its letter in the drawing only where it is at least this high. */
const ROOM = 20;

export interface ShareBand {
  id: string;
  title: string;
  hatch: Hatch;
  /** Share at each year of the table, 0 to 1. */
  shares: number[];
}

/** Bands in the order they came to market, `none` last and blank, so that it lies on top. */
export function shareBands(table: ShareTable, titleOf: (id: string) => string, order: string[]): ShareBand[] {
  const ids = Object.keys(table.rows).sort((a, b) => rank(a, order) - rank(b, order));
  return ids.map((id) => ({
    id,
    title: id === 'none' ? 'none' : titleOf(id),
    hatch: id === 'none' ? 'blank' : (SERIES[order.indexOf(id) % SERIES.length] ?? 'blank'),
    shares: table.rows[id] ?? [],
  }));
}

function rank(id: string, order: string[]): number {
  return id === 'none' ? order.length + 1 : order.indexOf(id);
}

/** What houses of each year had, as areas that fill the height. Its table stands beside it on the page. */
export function shareChart(
  years: number[],
  bands: ShareBand[],
  id: string,
  label: string,
  period: { from: number; to: number } | null = null,
): Mark {
  const first = years[0] ?? 1880;
  const last = years.at(-1) ?? 2025;
  const x = scaleLinear([first, last], [LEFT, RIGHT]);
  const y = scaleLinear([0, 1], [FOOT, TOP]);
  const below = years.map(() => 0);
  const drawn = bands.map((band, index) => {
    const spans = years.map((year, i) => {
      const from = below[i] ?? 0;
      const to = from + (band.shares[i] ?? 0);
      below[i] = to;
      return { year, from, to };
    });
    const shape = area<{ year: number; from: number; to: number }>()
      .x((s) => round(x(s.year)))
      .y0((s) => round(y(s.from)))
      .y1((s) => round(y(s.to)));
    return { index, spans, path: shape(spans) ?? '' };
  });
  return h(
    'svg',
    { class: 'figure share-chart', viewBox: `0 0 ${WIDTH} ${HEIGHT}`, role: 'img', 'aria-label': label },
    h('defs', {}, ...bands.map((band, i) => hatchDef(band.hatch, `${id}-${i}`))),
    ...drawn.map(({ index, path }) => h('path', { d: path, fill: `url(#${id}-${index})`, class: 'band' })),
    h('path', { d: `M${LEFT} ${TOP}V${FOOT}H${RIGHT}`, class: 'base-line' }),
    ...[0, 0.5, 1].map((v) =>
      h(
        'text',
        { x: LEFT - 6, y: px(y(v) + 4), 'text-anchor': 'end' },
        v === 0.5 ? 'half' : v === 1 ? 'all' : '0',
      ),
    ),
    ...decades(first, last).map((year) =>
      h(
        'g',
        { class: 'tick' },
        h('line', { x1: px(x(year)), x2: px(x(year)), y1: FOOT, y2: FOOT + 6 }),
        h(
          'text',
          { x: px(x(year)), y: FOOT + 22, 'text-anchor': year >= last - 4 ? 'end' : 'middle' },
          String(year),
        ),
      ),
    ),
    period !== null && periodMark(x.clamp(true), period),
    ...drawn.map(({ index, spans }) => bandLabel(index, spans, x, y)),
  );
}

/** Where a period, or a build year, stands among the years. */
function periodMark(x: (year: number) => number, { from, to }: { from: number; to: number }): Mark {
  return h('path', {
    d: `M${px(x(from))} ${TOP - 8}V${FOOT + 6}M${px(x(to))} ${TOP - 8}V${FOOT + 6}M${px(x(from))} ${TOP - 5}H${px(x(to))}`,
    class: 'built-mark',
  });
}

/** The letter that ties an area to its line in the key. */
export function bandLetter(index: number): string {
  return String.fromCharCode(65 + index);
}

function bandLabel(
  index: number,
  spans: { year: number; from: number; to: number }[],
  x: (year: number) => number,
  y: (share: number) => number,
): Mark | null {
  const thick = spans.reduce((best, s) => (s.to - s.from > best.to - best.from ? s : best), {
    year: 0,
    from: 0,
    to: 0,
  });
  if (y(thick.from) - y(thick.to) < ROOM) return null;
  const at = Math.min(Math.max(x(thick.year), LEFT + 16), RIGHT - 16);
  const middle = y((thick.from + thick.to) / 2);
  return h(
    'g',
    { class: 'band-label' },
    h('circle', { cx: px(at), cy: px(middle), r: 11, class: 'label-ground' }),
    h('text', { x: px(at), y: px(middle), dy: '0.36em', 'text-anchor': 'middle' }, bandLetter(index)),
  );
}

function decades(first: number, last: number): number[] {
  const step = last - first > 110 ? 40 : 20;
  const list: number[] = [];
  for (let year = Math.ceil(first / step) * step; year <= last; year += step) list.push(year);
  return list;
}

/** Share of a band in any year: linear between the table's years, constant outside. */
export function shareAt(years: number[], shares: number[], year: number): number {
  const after = years.findIndex((y) => y >= year);
  if (after === -1) return shares.at(-1) ?? 0;
  if (after === 0) return shares[0] ?? 0;
  const y0 = years[after - 1] ?? year;
  const y1 = years[after] ?? year;
  const s0 = shares[after - 1] ?? 0;
  const s1 = shares[after] ?? 0;
  return s0 + ((s1 - s0) * (year - y0)) / (y1 - y0);
}
