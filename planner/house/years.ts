import type { Odds, PartInput } from './house.ts';

/** Years a house may have been built in, from what was said. Null if the words are not understood.
 * Takes 1913, 1910s, 1905-1915, "about 1900", unknown (null odds: the stock decides). */
export function readYears(
  built: string | number,
  source: PartInput['yearSource'],
  asOf: number,
): { years: Odds<number> | null } | null {
  const text = String(built).trim().toLowerCase();
  if (text === 'unknown' || text === '') return { years: null };
  const exact = /^(\d{4})$/.exec(text);
  if (exact !== null) return inRange(atYear(Number(exact[1]), source), asOf);
  const decade = /^(\d{3})0s$/.exec(text);
  if (decade !== null) {
    const from = Number(decade[1]) * 10;
    return inRange(evenly(from, Math.min(from + 9, asOf)), asOf);
  }
  const range = /^(\d{4})\s*(?:-|–|to)\s*(\d{4})$/.exec(text);
  if (range !== null) {
    const [from, to] = [Number(range[1]), Number(range[2])];
    return from > to ? null : inRange(evenly(from, to), asOf);
  }
  const about = /^(?:about|around|circa|ca\.?|c\.?|~)\s*(\d{4})$/.exec(text);
  if (about !== null) return inRange(triangle(Number(about[1]), 10), asOf);
  return null;
}

export const YEARS_ACCEPTED = 'a year (1913), a decade (1910s), a range (1905-1915), "about 1900" or unknown';

/** A round year before 1950 from an assessor or a listing often means "old": half of its weight is spread
 * over the twelve years before and the eight after (common practice). */
function atYear(year: number, source: PartInput['yearSource']): Odds<number> {
  const round = year % 10 === 0 && year < 1950;
  if (!round || (source !== 'assessor' && source !== 'listing')) return [{ value: year, p: 1 }];
  const odds: Odds<number> = [];
  for (let y = year - 12; y <= year + 8; y++) odds.push({ value: y, p: y === year ? 0.525 : 0.475 / 20 });
  return odds;
}

function evenly(from: number, to: number): Odds<number> {
  const n = to - from + 1;
  return Array.from({ length: n }, (_, i) => ({ value: from + i, p: 1 / n }));
}

function triangle(middle: number, half: number): Odds<number> {
  const total = (half + 1) ** 2;
  return Array.from({ length: 2 * half + 1 }, (_, i) => ({
    value: middle - half + i,
    p: (half + 1 - Math.abs(i - half)) / total,
  }));
}

function inRange(years: Odds<number>, asOf: number): { years: Odds<number> } | null {
  const only = years.length === 1 ? years[0] : undefined;
  // A house is at times sold before it is finished: next year is taken as this one.
  if (only !== undefined && only.value === asOf + 1) return { years: [{ value: asOf, p: 1 }] };
  const kept = years.filter((y) => y.value >= EARLIEST && y.value <= asOf);
  if (kept.length === 0 || (years[0]?.value ?? 0) < EARLIEST) return null;
  const sum = kept.reduce((total, y) => total + y.p, 0);
  return { years: kept.map((y) => ({ value: y.value, p: y.p / sum })) };
}

/** No house is taken to be older than this. */
export const EARLIEST = 1650;

/** At most `limit` representative years: neighbours are joined at their mean, odds kept. */
export function representative(years: Odds<number>, limit: number): Odds<number> {
  if (years.length <= limit) return years;
  const size = Math.ceil(years.length / limit);
  const joined: Odds<number> = [];
  for (let i = 0; i < years.length; i += size) {
    const group = years.slice(i, i + size);
    const p = group.reduce((sum, y) => sum + y.p, 0);
    if (p <= 0) continue;
    joined.push({ value: Math.round(group.reduce((sum, y) => sum + y.p * y.value, 0) / p), p });
  }
  return joined;
}
