import type { Plan } from '../../../planner/plan-types.ts';
import { swatch } from '../../drawings/hatches.ts';
import { shareAt } from '../../drawings/share-bands.ts';
import { bandLetter, STRIP, shareChart, type YearMark } from '../../drawings/share-chart.ts';
import { fold, h, type Mark } from '../../markup/h.ts';
import { toEntry } from '../../site/link.ts';
import type { Strip } from '../strips.ts';

/** The house among the years: what new houses had, system by system, with its own years marked. A lean view leaves
 * out the tables. */
export function stripsView(plan: Plan, strips: Strip[], lean = false): Mark | null {
  if (strips.length === 0) return null;
  const marks = yearMarks(plan);
  const year = middleYear(plan);
  return h(
    'div',
    { class: 'strips-part' },
    h(
      'p',
      {},
      'What new houses had, year by year, for the systems that weigh most here. The upright is this house. Much has been renewed since: what is likely there today follows below.',
    ),
    h(
      'div',
      { class: 'strips' },
      strips.map((strip) => stripFigure(strip, marks, year, lean)),
    ),
  );
}

function stripFigure(strip: Strip, marks: YearMark[], year: number | null, lean: boolean): Mark {
  const { system, title, years, bands } = strip;
  const letters = bands.map((band, i) => ({ band, letter: bandLetter(i) }));
  return h(
    'section',
    { class: 'strip', 'aria-label': `${title} among the years` },
    h('h3', {}, h('a', { href: toEntry('systems', system) }, title)),
    h(
      'figure',
      {},
      shareChart(years, bands, `strip-${system}`, `${title}: ${inWords(strip, year)}`, marks, STRIP),
      h('figcaption', {}, inWords(strip, year)),
    ),
    h(
      'ul',
      { class: 'key' },
      letters
        .filter(({ band }) => Math.max(...band.shares) >= 0.08)
        .map(({ band, letter }) =>
          h(
            'li',
            {},
            h('span', { class: 'letter' }, letter),
            swatch(band.hatch, `strip-${system}-key-${letter}`),
            band.title,
          ),
        ),
    ),
    lean
      ? null
      : fold(
          { 'data-key': `strip-${system}` },
          h('summary', {}, 'The figures', h('span', { class: 'hidden-words' }, `: ${title}`)),
          () => stripTable(strip, year),
        ),
  );
}

/** The commonest of new houses of the year, of a hundred. */
function inWords({ years, bands }: Strip, year: number | null): string {
  if (year === null) return 'the year of this house is not known';
  const all = bands
    .map((band) => ({ title: lower(band.title), share: shareAt(years, band.shares, year) }))
    .sort((a, b) => b.share - a.share);
  const top = all.filter((one, i) => i === 0 || one.share >= 0.15).slice(0, 3);
  return `Of a hundred new houses of ${year}: ${top.map((one) => `${hundredth(one.share)} ${one.title}`).join(', ')}.`;
}

function stripTable({ title, years, bands }: Strip, year: number | null): Mark {
  const columns = columnsOf(years, year);
  return h(
    'div',
    { class: 'scroll', tabindex: 0, role: 'group', 'aria-label': `${title}, as a table` },
    h(
      'table',
      { class: 'chart-table' },
      h('caption', {}, 'Of a hundred new houses of each year'),
      h(
        'thead',
        {},
        h(
          'tr',
          {},
          h('th', { scope: 'col' }, 'Material'),
          columns.map((y) => h('th', { scope: 'col', class: 'number' }, y)),
        ),
      ),
      h(
        'tbody',
        {},
        bands.map((band) =>
          h(
            'tr',
            {},
            h('th', { scope: 'row' }, band.title),
            columns.map((y) => h('td', { class: 'number' }, hundredth(shareAt(years, band.shares, y)))),
          ),
        ),
      ),
    ),
  );
}

/** Every twentieth year, and the year of the house. */
function columnsOf(years: number[], year: number | null): number[] {
  const first = years[0] ?? 1880;
  const last = years.at(-1) ?? first;
  const columns = new Set(year === null ? [] : [year]);
  for (let y = Math.ceil(first / 20) * 20; y <= last; y += 20) columns.add(y);
  return [...columns].sort((a, b) => a - b);
}

/** The year of the main block, or the mean where it is vague; null where it is spread over half a century. */
function middleYear(plan: Plan): number | null {
  const years = plan.house.parts[0]?.built.years ?? [];
  const values = years.map((y) => y.value);
  if (values.length === 0 || Math.max(...values) - Math.min(...values) > 50) return null;
  const weight = years.reduce((sum, y) => sum + y.p, 0);
  return Math.round(years.reduce((sum, y) => sum + y.p * y.value, 0) / weight);
}

/** The main block's years, and those of additions that stand clear of it. */
function yearMarks(plan: Plan): YearMark[] {
  const marks = plan.house.parts.flatMap((part): YearMark[] => {
    const values = part.built.years.map((y) => y.value);
    if (values.length === 0) return [];
    const from = Math.min(...values);
    const to = Math.max(...values);
    return to - from > 50 ? [] : [{ from, to, words: part.built.given }];
  });
  return marks.filter(
    (mark, i) => i === 0 || marks.slice(0, i).every((m) => Math.abs(m.from - mark.from) > 16),
  );
}

function hundredth(share: number): string {
  const of = Math.round(share * 100);
  return of === 0 ? (share > 0 ? '<1' : '·') : String(of);
}

const lower = (title: string): string => title.charAt(0).toLowerCase() + title.slice(1);
