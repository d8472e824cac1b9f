import type { Base } from '../../knowledge/schema/base.ts';
import { indexBase } from '../base-index.ts';
import { bareClue, NOT } from '../belief/not-met.ts';
import { type Here, hereOf } from '../places/here.ts';
import type { Form, Foundation, House, HouseInput, Odds, Part, PartInput } from './house.ts';
import {
  FORM_PRIOR,
  foundationPrior,
  fuelPrior,
  roofPrior,
  SEWER_PRIOR,
  stockPrior,
  WALL_PRIOR,
  WATER_PRIOR,
} from './priors.ts';
import { oddsByClues, withImplied } from './told.ts';
import { ACCEPTED, nearest } from './words.ts';
import { readYears, representative, YEARS_ACCEPTED } from './years.ts';

/** An input that can't be used: which, what was given, what is accepted, and the nearest word if one is near. */
export interface Problem {
  option: string;
  value: string;
  accepted: string;
  nearest: string | null;
}

/** No paper or plate of a house in this country is older. */
const OLDEST_PAPER = 1600;

/** Vague years are summed over at this many representative years. */
const YEAR_NODES = 6;

/** Turns what was said into a house with every input known or given odds. All problems are reported at once. */
export function resolveHouse(base: Base, input: HouseInput): { house: House } | { problems: Problem[] } {
  const reader = new InputReader();
  const asOf = reader.whole('as-of', input.asOf, 1900, 2100) ?? 0;
  const place = { given: input.place ?? 'unknown', ...reader.place(base, input.place) };
  const here = hereOf(base, { ...place, coast: 'unknown' });
  const region = here?.state.region ?? null;

  const units = reader.whole('units', input.units, 1, 4);
  const givenForm = reader.word('form', input.form, ACCEPTED.form);
  const dwellings = units ?? (givenForm === 'two-to-four' ? 2 : 1);
  const form = formOdds(givenForm, units);
  const read = input.parts.map((part, i) => readPart(base, reader, part, i, { asOf, here, form }));
  if (read.length === 0) reader.report('parts', '', 'at least one part', null);
  const index = indexBase(base);
  const clues = withImplied(index, readClues(base, reader, input, read, dwellings, asOf));
  const parts = read.map((part) => {
    const here = clues.filter((clue) => clue.part === part.name);
    return { ...part, roof: oddsByClues(index, here, 'roof', part.roof) };
  });
  const byClues = <T extends string>(name: 'water' | 'sewer' | 'fuel', odds: Odds<T>): Odds<T> =>
    oddsByClues(index, clues, name, odds);

  const team = reader.whole('team', input.visit?.team, 1, 4) ?? 1;
  const house: House = {
    asOf,
    place: { ...place, coast: reader.coast(input.coast, here) },
    form,
    units: dwellings,
    area: reader.whole('area', input.area, 200, 20000) ?? 1600,
    water: byClues('water', reader.odds('water', input.water, ACCEPTED.water, WATER_PRIOR)),
    sewer: byClues('sewer', reader.odds('sewer', input.sewer, ACCEPTED.sewer, SEWER_PRIOR)),
    fuel: byClues('fuel', reader.odds('fuel', input.fuel, ACCEPTED.fuel, fuelPrior(region))),
    occupied: reader.word('occupied', input.occupied, ACCEPTED.occupied) ?? 'unknown',
    utilities: reader.word('utilities', input.utilities, ACCEPTED.utilities) ?? 'unknown',
    parts,
    clues,
    client: (input.client ?? []).flatMap((word) => reader.word('client', word, ACCEPTED.client) ?? []),
    visit: {
      minutes: reader.whole('minutes', input.visit?.minutes, 20, 960) ?? 240,
      team,
      trainees: reader.whole('trainees', input.visit?.trainees, 0, team - 1) ?? 0,
      signedOff: (input.visit?.signedOff ?? []).flatMap(
        (word) => reader.word('signed-off', word, ACCEPTED.signedOff) ?? [],
      ),
      rainHours: reader.whole('rain-hours', input.visit?.rainHours, 0, 2000),
      outdoorF: reader.whole('outdoor', input.visit?.outdoorF, -60, 130),
      indoorF: reader.whole('indoor', input.visit?.indoorF, -20, 130),
      snow: input.visit?.snow ?? false,
      windy: input.visit?.windy ?? false,
      droughtDays: reader.whole('drought-days', input.visit?.droughtDays, 0, 400),
      daylightMinutes: reader.whole('daylight-minutes', input.visit?.daylightMinutes, 0, 960),
    },
    walk: {
      pin: (input.walk?.pin ?? []).flatMap((id) => reader.check(base, 'pin', id) ?? []),
      drop: (input.walk?.drop ?? []).flatMap((id) => reader.check(base, 'drop', id) ?? []),
    },
  };
  return reader.problems.length > 0 ? { problems: reader.problems } : { house };
}

function formOdds(given: Form | null, units: number | null): Odds<Form> {
  if (given !== null) return [{ value: given, p: 1 }];
  if (units !== null && units > 1) return [{ value: 'two-to-four', p: 1 }];
  return FORM_PRIOR;
}

interface Setting {
  asOf: number;
  here: Here | null;
  form: Odds<Form>;
}

function readPart(base: Base, reader: InputReader, input: PartInput, index: number, at: Setting): Part {
  const given = String(input.built ?? 'unknown');
  const source = reader.word('year-source', input.yearSource, ACCEPTED.yearSource);
  const read = readYears(given, source ?? 'unknown', at.asOf);
  if (read === null) reader.report('built', given, YEARS_ACCEPTED, null);
  const all = read?.years ?? stockPrior(base, at.here?.state.code ?? null, at.asOf);
  const years = representative(all, YEAR_NODES);
  const kind = reader.word('foundation', input.foundation, ACCEPTED.foundation);
  const foundation: Odds<Foundation> =
    kind === null
      ? foundationPrior(base, at.here?.zones ?? null, years, at.form, at.here?.state.division ?? null)
      : [{ value: kind, p: 1 }];
  const meanYear = years.reduce((sum, y) => sum + y.p * y.value, 0);
  const region = at.here?.state.region ?? null;
  const tall = meanYear < 1940 && (region === 'Northeast' || region === 'Midwest' || region === null);
  return {
    name: input.name ?? (index === 0 ? 'main block' : `addition ${index}`),
    built: { given, years },
    foundation,
    walls: reader.odds('walls', input.walls, ACCEPTED.walls, WALL_PRIOR),
    roof: reader.odds('roof', input.roof, ACCEPTED.roof, roofPrior(at.form)),
    storeys: reader.whole('storeys', input.storeys, 1, 5) ?? (tall && index === 0 ? 2 : 1),
  };
}

function readClues(
  base: Base,
  reader: InputReader,
  input: HouseInput,
  parts: Part[],
  units: number,
  asOf: number,
): House['clues'] {
  const { clues } = indexBase(base);
  const given = input.clues ?? [];
  return given.flatMap((clue) => {
    const known = clues.get(clue.id);
    if (known === undefined) {
      reader.unknownClue(base, clue.id);
      return [];
    }
    const year = clue.year ?? null;
    if (known.dated !== undefined && year === null) {
      reader.report('clue', clue.id, `${clue.id}=YEAR: this clue needs the year it gives`, null);
      return [];
    }
    if (known.dated === undefined && year !== null) {
      reader.report('clue', `${clue.id}=${year}`, `${clue.id} without a year: it dates nothing`, null);
      return [];
    }
    if (year !== null && (year < OLDEST_PAPER || (asOf > 0 && year > asOf))) {
      reader.report('clue', `${clue.id}=${year}`, `a year from ${OLDEST_PAPER} to ${asOf}`, null);
      return [];
    }
    const part = clue.part ?? parts[0]?.name ?? 'main block';
    if (!parts.some((p) => p.name === part)) {
      const named = parts.map((p) => `${clue.id}@${p.name}`);
      reader.report('clue part', `${clue.id}@${part}`, `a part of the house: ${named.join(', ')}`, null);
      return [];
    }
    const unit = clue.unit ?? 1;
    if (!(Number.isInteger(unit) && unit >= 1 && unit <= units)) {
      reader.report('clue unit', `${clue.id}#${unit}`, dwellingsAccepted(clue.id, units), null);
      return [];
    }
    const other = given.find(
      (o) => o.id === `${NOT}${clue.id}` && o.part === clue.part && o.unit === clue.unit,
    );
    if (other !== undefined) {
      reader.report('clue', other.id, `${clue.id} once: it was met, or it was not`, null);
      return [];
    }
    return [{ id: clue.id, year, part, unit }];
  });
}

function dwellingsAccepted(id: string, units: number): string {
  return units === 1
    ? `${id} without a dwelling, or say how many dwellings the house has (units, 2 to 4)`
    : `${id}#1 to ${id}#${units}: the house has ${units} dwellings`;
}

/** Reads single inputs and gathers the problems. */
class InputReader {
  readonly problems: Problem[] = [];

  unknownClue(base: Base, id: string): void {
    const ids = base.clues.map((c) => c.id);
    const bare = bareClue(id);
    if (bare !== id && ids.includes(bare))
      this.report(
        'clue',
        id,
        `${bare}, if it was met: a paper, hearsay or a date can't be looked for and missed`,
        null,
      );
    else {
      const near = nearest(bare, ids);
      const not = bare === id || near === null ? '' : NOT;
      this.report('clue', id, 'a clue id (see datestone clues)', near === null ? null : `${not}${near}`);
    }
  }

  report(option: string, value: string, accepted: string, near: string | null): void {
    this.problems.push({ option, value, accepted, nearest: near });
  }

  word<T extends string>(option: string, value: string | undefined, accepted: readonly T[]): T | null {
    if (value === undefined || value === 'unknown') return null;
    const found = accepted.find((a) => a === value);
    if (found !== undefined) return found;
    this.report(option, value, `${accepted.join(', ')} or unknown`, nearest(value, accepted));
    return null;
  }

  odds<T extends string>(
    option: string,
    value: string | undefined,
    accepted: readonly T[],
    prior: Odds<T>,
  ): Odds<T> {
    const found = this.word(option, value, accepted);
    return found === null ? prior : [{ value: found, p: 1 }];
  }

  check(base: Base, option: string, id: string): string | null {
    const ids = base.checks.map((c) => c.id);
    const found = ids.find((known) => known === id);
    if (found !== undefined) return found;
    this.report(option, id, 'a check id', nearest(id, ids));
    return null;
  }

  whole(option: string, value: number | undefined, low: number, high: number): number | null {
    if (value === undefined) return null;
    if (Number.isInteger(value) && value >= low && value <= high) return value;
    this.report(option, String(value), `a whole number from ${low} to ${high}`, null);
    return null;
  }

  /** The shore is a fact of a coastal state alone. */
  coast(given: string | undefined, here: Here | null): House['place']['coast'] {
    const coast = this.word('coast', given, ACCEPTED.coast);
    if (coast === 'within-3000-ft' && here !== null && !here.state.coast) {
      this.report('coast', coast, `farther or unknown: ${here.state.name} has no sea coast`, 'farther');
      return 'unknown';
    }
    return coast ?? 'unknown';
  }

  place(base: Base, given: string | undefined): { state: string | null; zip3: string | null } {
    const none = { state: null, zip3: null };
    if (given === undefined || given === 'unknown') return none;
    const code = given.toUpperCase();
    const codes = base.places.states.map((s) => s.code);
    if (codes.includes(code)) return { state: code, zip3: null };
    if (/^\d{5}$/.test(given)) {
      const zip3 = given.slice(0, 3);
      const area = base.places.zip3[zip3];
      if (area !== undefined) return { state: area.state, zip3 };
      this.report('place', given, 'a ZIP of the 50 states or DC, a state code or unknown', null);
      return none;
    }
    const named = base.places.states.find((s) => s.name.toLowerCase() === given.toLowerCase());
    if (named !== undefined) return { state: named.code, zip3: null };
    const near =
      nearest(code, codes) ??
      nearest(
        given,
        base.places.states.map((s) => s.name),
      );
    this.report('place', given, 'a state code (KY), a five-digit ZIP or unknown', near);
    return none;
  }
}
