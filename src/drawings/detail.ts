import { h, type Mark } from '../markup/h.ts';
import { px } from './figure.ts';
import { type Hatch, hatchDef, hatchFill, isHatch } from './hatches.ts';

/** A drawing of one thing where a look decides: the thing on the left, notes with leaders on the right.
 * Units are those of the sheet (`ART` wide, `height` high); nothing is to scale. */
export interface Detail {
  id: string;
  /** What is drawn. */
  title: string;
  /** The drawing in words, for those who can't see it. */
  desc: string;
  /** What decides: the line under the drawing. */
  tell: string;
  /** Pages that it stands on, as `materials/ID` or `failures/ID`. */
  shows: readonly `${'materials' | 'failures'}/${string}`[];
  height: number;
  marks: readonly Mark[];
  notes: readonly Note[];
}

/** Words at the side, and the point they speak of. */
export interface Note {
  say: string;
  to: readonly [number, number];
}

export const ART = 232;
export const SHEET_WIDTH = 380;
const NOTES = 252;
/** Letters in a line: what fits beside the drawing in the widest of the lettering faces. */
const LETTERS = 16;
export const LEADING = 18;
const BETWEEN = 10;

/** A cut surface, hatched for what it is made of; without a hatch it is blank. */
export const cut = (d: string, hatch?: Hatch): Mark =>
  h('path', { d, class: 'cut', fill: hatch === undefined ? null : `hatch:${hatch}` });
/** An edge in view. */
export const edge = (d: string): Mark => h('path', { d, class: 'profile' });
/** A thinner edge: boards, courses, small parts. */
export const thin = (d: string): Mark => h('path', { d, class: 'thin' });
/** What stands behind something else. */
export const hidden = (d: string): Mark => h('path', { d, class: 'thin behind' });
/** The thing that decides, drawn in the accent. */
export const telling = (d: string): Mark => h('path', { d, class: 'telling' });
/** Paper laid over what is behind it, with an edge in view. */
export const over = (d: string): Mark => h('path', { d, class: 'thin over' });
/** Solid ink: conductors, lead, thin sheet metal seen from its edge. */
export const ink = (d: string): Mark => h('path', { d, class: 'solid' });

export const rect = (x: number, y: number, width: number, height: number): string =>
  `M${px(x)} ${px(y)}h${px(width)}v${px(height)}h${px(-width)}z`;
export const disc = (x: number, y: number, r: number): string =>
  `M${px(x - r)} ${px(y)}a${px(r)} ${px(r)} 0 1 0 ${px(2 * r)} 0a${px(r)} ${px(r)} 0 1 0 ${px(-2 * r)} 0z`;
/** The same stroke several times, `step` apart. */
export const times = (count: number, each: (i: number) => string): string =>
  Array.from({ length: count }, (_, i) => each(i)).join('');
/** An arrow from one point to another, with its head. */
export const arrow = (x1: number, y1: number, x2: number, y2: number): Mark => {
  const turn = Math.atan2(y2 - y1, x2 - x1);
  const wing = (by: number): string =>
    `M${px(x2 - 9 * Math.cos(turn + by))} ${px(y2 - 9 * Math.sin(turn + by))}L${px(x2)} ${px(y2)}`;
  return telling(`M${px(x1)} ${px(y1)}L${px(x2)} ${px(y2)}${wing(0.45)}${wing(-0.45)}`);
};

export function detailDrawing(detail: Detail): Mark {
  const used = new Set<Hatch>();
  const marks = detail.marks.map((mark) => hatched(mark, detail.id, used));
  const placed = placeNotes(detail.notes);
  const last = placed.at(-1);
  const height = Math.max(detail.height, last === undefined ? 0 : last.top + last.lines.length * LEADING + 4);
  return h(
    'svg',
    {
      class: 'figure detail',
      viewBox: `0 0 ${SHEET_WIDTH} ${height}`,
      role: 'img',
      'aria-labelledby': `${detail.id}-title`,
      'aria-describedby': `${detail.id}-desc`,
    },
    h('title', { id: `${detail.id}-title` }, detail.title),
    h('desc', { id: `${detail.id}-desc` }, detail.desc),
    h('defs', {}, ...[...used].map((hatch) => hatchDef(hatch, detail.id))),
    ...marks,
    ...placed.map(noteMark),
  );
}

/** Hatches get names that are this drawing's own: several drawings may stand on one page. */
function hatched(mark: Mark, id: string, used: Set<Hatch>): Mark {
  const fill = mark.attrs.fill;
  const hatch = typeof fill === 'string' ? fill.replace('hatch:', '') : '';
  if (!isHatch(hatch)) return mark;
  used.add(hatch);
  return { ...mark, attrs: { ...mark.attrs, fill: hatchFill(hatch, id) } };
}

interface PlacedNote {
  lines: string[];
  top: number;
  to: readonly [number, number];
}

/** Notes stand beside what they speak of, moved down where they would cover one another. */
export function placeNotes(notes: readonly Note[]): PlacedNote[] {
  const sorted = [...notes].sort((a, b) => a.to[1] - b.to[1] || b.to[0] - a.to[0]);
  let free = 2;
  return sorted.map(({ say, to }) => {
    const lines = wrapped(say);
    const top = Math.max(free, to[1] - (lines.length * LEADING) / 2);
    free = top + lines.length * LEADING + BETWEEN;
    return { lines, top, to };
  });
}

function wrapped(say: string): string[] {
  const lines: string[] = [];
  for (const word of say.split(' ')) {
    const line = lines.at(-1);
    if (line !== undefined && line.length + 1 + word.length <= LETTERS)
      lines[lines.length - 1] = `${line} ${word}`;
    else lines.push(word);
  }
  return lines;
}

function noteMark({ lines, top, to: [x, y] }: PlacedNote): Mark {
  const middle = top + (lines.length * LEADING) / 2;
  return h(
    'g',
    { class: 'note-mark' },
    h('path', { d: `M${NOTES - 5} ${px(middle)}H${NOTES - 12}L${px(x)} ${px(y)}`, class: 'note-line' }),
    h('circle', { cx: px(x), cy: px(y), r: 2.6, class: 'note-dot' }),
    lines.map((line, i) => h('text', { x: NOTES, y: px(top + 13.5 + i * LEADING) }, line)),
  );
}
