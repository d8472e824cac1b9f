import { h, type Mark } from '../markup/h.ts';
import { px } from './figure.ts';
import { hatchDef, hatchFill } from './hatches.ts';
import type { ShareBand } from './share-bands.ts';

/** Where a chart stands on its sheet. */
interface Frame {
  width: number;
  height: number;
  left: number;
  right: number;
  top: number;
  foot: number;
}
const SHEET: Frame = { width: 380, height: 246, left: 34, right: 374, top: 14, foot: 218 };
/** One of several charts under one another. */
export const STRIP: Frame = { width: 380, height: 148, left: 34, right: 374, top: 22, foot: 122 };
/** An area takes its letter in the drawing only where it is at least this high. */
const ROOM = 20;

/** A year, or years from one to another, to point at: a build year, a period. */
export interface YearMark {
  from: number;
  to: number;
  /** Words over the mark, if any. */
  words?: string;
}

/** What houses of each year had, as areas that fill the height. Its table stands beside it on the page. */
export function shareChart(
  years: number[],
  bands: ShareBand[],
  id: string,
  label: string,
  marks: readonly YearMark[] = [],
  frame: Frame = SHEET,
): Mark {
  const { width, height, left, right, top, foot } = frame;
  const first = years[0] ?? 1880;
  const last = years.at(-1) ?? 2025;
  const x = (year: number): number => left + ((right - left) * (year - first)) / (last - first);
  const y = (share: number): number => foot - (foot - top) * share;
  const below = years.map(() => 0);
  const drawn = bands.map((band, index) => {
    const spans = years.map((year, i) => {
      const from = below[i] ?? 0;
      const to = from + (band.shares[i] ?? 0);
      below[i] = to;
      return { year, from, to };
    });
    return { index, hatch: band.hatch, spans, path: outline(spans, x, y) };
  });
  return h(
    'svg',
    { class: 'figure share-chart', viewBox: `0 0 ${width} ${height}`, role: 'img', 'aria-label': label },
    h('defs', {}, ...bands.map((band, i) => hatchDef(band.hatch, `${id}-${i}`))),
    ...drawn.map(({ index, hatch, path }) =>
      h('path', { d: path, fill: hatchFill(hatch, `${id}-${index}`), class: 'band' }),
    ),
    h('path', { d: `M${left} ${top}V${foot}H${right}`, class: 'base-line' }),
    ...[0, 0.5, 1].map((v) =>
      h(
        'text',
        { x: left - 6, y: px(y(v) + 4), 'text-anchor': 'end' },
        v === 0.5 ? 'half' : v === 1 ? 'all' : '0',
      ),
    ),
    ...decades(first, last).map((year) =>
      h(
        'g',
        { class: 'tick' },
        h('line', { x1: px(x(year)), x2: px(x(year)), y1: foot, y2: foot + 6 }),
        h(
          'text',
          { x: px(x(year)), y: foot + 22, 'text-anchor': year >= last - 4 ? 'end' : 'middle' },
          String(year),
        ),
      ),
    ),
    marks.map((mark) => yearMark(mark, (year) => x(Math.min(last, Math.max(first, year))), frame)),
    ...drawn.map(({ index, spans }) => bandLabel(index, spans, x, y, frame)),
  );
}

interface Span {
  year: number;
  from: number;
  to: number;
}
type Scale = (value: number) => number;

/** An area between two lines: along its upper edge and back along its lower. */
function outline(spans: readonly Span[], x: Scale, y: Scale): string {
  const there = spans.map((s) => `${px(x(s.year))},${px(y(s.to))}`);
  const back = [...spans].reverse().map((s) => `${px(x(s.year))},${px(y(s.from))}`);
  return `M${[...there, ...back].join('L')}Z`;
}

/** Where a period, or a build year, stands among the years. */
function yearMark({ from, to, words }: YearMark, x: Scale, { left, right, top, foot }: Frame): Mark {
  const middle = (x(from) + x(to)) / 2;
  const anchor = middle < left + 30 ? 'start' : middle > right - 30 ? 'end' : 'middle';
  return h(
    'g',
    {},
    h('path', {
      d:
        from === to
          ? `M${px(x(from))} ${top - 5}V${foot + 6}`
          : `M${px(x(from))} ${top - 8}V${foot + 6}M${px(x(to))} ${top - 8}V${foot + 6}M${px(x(from))} ${top - 5}H${px(x(to))}`,
      class: 'built-mark',
    }),
    words !== undefined &&
      h('text', { x: px(middle), y: top - 9, 'text-anchor': anchor, class: 'built-words' }, words),
  );
}

/** The letter that ties an area to its line in the key. */
export function bandLetter(index: number): string {
  return String.fromCharCode(65 + index);
}

const thickest = (spans: readonly Span[]): Span =>
  spans.reduce((best, s) => (s.to - s.from > best.to - best.from ? s : best), { year: 0, from: 0, to: 0 });

function bandLabel(
  index: number,
  spans: readonly Span[],
  x: Scale,
  y: Scale,
  { left, right }: Frame,
): Mark | null {
  const thick = thickest(spans);
  if (y(thick.from) - y(thick.to) < ROOM) return null;
  const at = Math.min(Math.max(x(thick.year), left + 16), right - 16);
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
