import type { ClueInput, HouseInput, PartInput, VisitInput } from '../../planner/house/house.ts';
import type { Problem } from '../../planner/house/resolve.ts';

/** A plan's inputs as they stand in the address after `#`: one key a field, what was typed as it was typed.
 * The part after `#` never leaves the device. Additions carry their number: `built.2`, `foundation.2`; so do the dwellings
 * of a clue: `unit.fuses-seen=2`, `year.heating-plate-year.2`. */
export const MOST_PARTS = 6;

/** Numbers of the parts that the keys speak of: the main block is 1. */
export function partNumbers(params: URLSearchParams): number[] {
  const numbers = new Set([1]);
  for (const key of params.keys()) {
    const match = /^(?:built|foundation|walls|roof|storeys|name|year-source)\.([2-9])$/.exec(key);
    if (match !== null) numbers.add(Number(match[1]));
  }
  return [...numbers].sort((a, b) => a - b).slice(0, MOST_PARTS);
}

export function partKey(field: string, part: number): string {
  return part === 1 ? field : `${field}.${part}`;
}

/** What was typed, as the planner takes it. Words and numbers are judged by the planner, not here. */
export function readParams(params: URLSearchParams): HouseInput {
  const text = (key: string): string | undefined => {
    const value = params.get(key)?.trim();
    return value === undefined || value === '' ? undefined : value;
  };
  const number = (key: string): number | undefined => {
    const value = text(key);
    return value === undefined ? undefined : Number(value.replaceAll(',', ''));
  };
  const numbers = partNumbers(params);
  const names = numbers.map((n, i) => text(partKey('name', n)) ?? (i === 0 ? 'main block' : `addition ${i}`));
  const parts = numbers.map((n, i): PartInput => {
    return given({
      name: names[i],
      built: text(partKey('built', n)),
      yearSource: text(partKey('year-source', n)),
      foundation: text(partKey('foundation', n)),
      walls: text(partKey('walls', n)),
      roof: text(partKey('roof', n)),
      storeys: number(partKey('storeys', n)),
    });
  });
  const clues = params.getAll('clue').flatMap((id): ClueInput[] => {
    const part = names[numbers.indexOf(Number(params.get(`at.${id}`) ?? '1'))];
    return metIn(params, id).map(({ unit, yearKey }) => given({ id, year: number(yearKey), part, unit }));
  });
  const visit: VisitInput = given({
    minutes: number('minutes'),
    team: number('team'),
    trainees: number('trainees'),
    rainHours: number('rain-hours'),
    outdoorF: number('outdoor'),
    indoorF: number('indoor'),
  });
  return given({
    asOf: number('as-of'),
    place: text('place'),
    coast: text('coast'),
    form: text('form'),
    units: number('units'),
    area: number('area'),
    water: text('water'),
    sewer: text('sewer'),
    fuel: text('fuel'),
    occupied: text('occupied'),
    utilities: text('utilities'),
    parts,
    clues,
    client: params.getAll('client'),
    visit,
  });
}

/** How many dwellings the form speaks of. */
export function dwellingsOf(params: URLSearchParams): number {
  const typed = params.get('units')?.trim() ?? '';
  if (/^[1-4]$/.test(typed)) return Number(typed);
  return typed === '' && params.get('form') === 'two-to-four' ? 2 : 1;
}

/** Key of the year that a dated clue gives in a dwelling. */
export function yearKeyOf(id: string, dwelling: number): string {
  return dwelling === 1 ? `year.${id}` : `year.${id}.${dwelling}`;
}

/** The dwellings that a ticked clue was met in: those ticked for it, and those that it gives a year in. In none of them it
 * is met in the first, which goes without saying. */
function metIn(params: URLSearchParams, id: string): { unit: number | undefined; yearKey: string }[] {
  const ticked = params.getAll(`unit.${id}`).map(Number);
  const dated = MORE_DWELLINGS.filter((n) => (params.get(yearKeyOf(id, n)) ?? '').trim() !== '');
  if (ticked.length > 0) return ticked.map((unit) => ({ unit, yearKey: yearKeyOf(id, 1) }));
  const first = (params.get(yearKeyOf(id, 1)) ?? '').trim() !== '' || dated.length === 0;
  return [
    ...(first ? [{ unit: undefined, yearKey: yearKeyOf(id, 1) }] : []),
    ...dated.map((unit) => ({ unit, yearKey: yearKeyOf(id, unit) })),
  ];
}

const MORE_DWELLINGS = [2, 3, 4];

/** Leaves out what was not said. The type is taken on trust: the planner judges every word and number. */
function given<T extends object>(fields: Record<string, unknown>): T {
  return Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined)) as T;
}

const KEYS: Record<string, string> = { 'clue part': 'at' };

/** The key of the field that a problem is about. Where parts share an input, the one with that value. */
export function keyOfProblem(problem: Problem, params: URLSearchParams): string {
  const name = KEYS[problem.option] ?? problem.option;
  if (name === 'clue unit') return `unit.${problem.value.split('#')[0] ?? ''}`;
  // A dated clue without its year: the fault is the year's.
  if (name === 'clue') return problem.accepted.includes('=YEAR') ? `year.${problem.value}` : 'clue';
  const keys = [...params.keys()].filter((key) => key === name || key.startsWith(`${name}.`));
  const isIt = (key: string): boolean => {
    const value = params.get(key)?.trim() ?? '';
    return value === problem.value || (Number.isNaN(Number(problem.value)) && Number.isNaN(Number(value)));
  };
  return keys.find(isIt) ?? keys[0] ?? name;
}

/** What is wrong with a field, as a sentence: what was typed, what is accepted, the nearest. */
export function problemInWords(problem: Problem, typed: string): string {
  if (problem.accepted.includes('=YEAR')) return 'Give the year that it gives, such as 1998.';
  const near = problem.nearest === null ? '' : ` Did you mean ${problem.nearest}?`;
  return `“${typed}” is not understood here. Give ${problem.accepted}.${near}`;
}
