import type { Base } from '../../knowledge/schema/base.ts';
import type { State } from '../../knowledge/schema/place.ts';
import { decayBandInWords } from '../../planner/places/decay-index.ts';
import { type Here, sourcesOfField } from '../../planner/places/here.ts';

/** What one field of a place says, who says so and how well it is known. */
export interface PlaceField {
  field: string;
  label: string;
  value: State[keyof State];
  say: string;
  grade: string;
  source: string[];
}

interface Wording {
  /** A field of the state, or a figure made from one. */
  field: string;
  from: keyof State;
  label: string;
  value?: (here: Here) => State[keyof State];
  say: (state: State, here: Here) => string;
}

/** The fields in the order in which they are told. What stands for a whole state says so. */
const WORDINGS: Wording[] = [
  { field: 'region', from: 'region', label: 'Region', say: (s) => s.region },
  { field: 'division', from: 'division', label: 'Division', say: (s) => s.division },
  {
    field: 'zone',
    from: 'zone',
    label: 'Climate zone',
    value: (here) => here.zone,
    say: (_, here) =>
      `${here.zone}, where most houses stand (2012 energy code; later codes moved some counties)`,
  },
  {
    field: 'decayIndex',
    from: 'decay',
    label: 'Decay index',
    value: (here) => here.decay,
    say: (_, here) =>
      `${here.decay}, ${decayBandInWords(here.decay)}; of wood above ground in the weather, never of crawl spaces, leaks or soil contact`,
  },
  {
    field: 'decay',
    from: 'decay',
    label: 'Decay, span',
    say: ({ decay: [low, middle, high] }) =>
      `${low} to ${high} over the state's houses but the lowest and highest tenth, ${middle} at the middle`,
  },
  {
    field: 'freezeThawDays',
    from: 'freezeThawDays',
    label: 'Freeze-thaw',
    say: (s) => `${s.freezeThawDays} days a year that freeze and thaw, at the middle of the state's houses`,
  },
  {
    field: 'termites',
    from: 'termites',
    label: 'Termites',
    say: (s) => `${termiteBand(s.termites)} for subterranean termites; check locally`,
  },
  {
    field: 'termiteSpan',
    from: 'termiteSpan',
    label: 'Termites, span',
    say: ({ termiteSpan: [most, least] }) =>
      most === least
        ? 'one band over the whole state'
        : `${termiteBand(most)} in places, ${termiteBand(least)} in others`,
  },
  {
    field: 'formosan',
    from: 'formosan',
    label: 'Formosan termites',
    say: (s) => `${s.formosan} by the list of 2019; they spread`,
  },
  {
    field: 'drywood',
    from: 'drywood',
    label: 'Drywood termites',
    say: (s) => (s.drywood === 'no' ? 'not usual here; check locally' : `${s.drywood}; check locally`),
  },
  {
    field: 'frostInches',
    from: 'frostInches',
    label: 'Frost depth',
    say: ({ frostInches: [least, usual, most] }) =>
      `${usual} in. usual for new footings, ${least} to ${most} over the state; an old footing may be shallower; check locally`,
  },
  {
    field: 'expansiveSoil',
    from: 'expansiveSoil',
    label: 'Swelling soil',
    say: (s) => `${s.expansiveSoil} over the state; the ground differs lot by lot; check the soil survey`,
  },
  {
    field: 'soilNote',
    from: 'soilNote',
    label: 'Soil, where',
    say: (s) => (s.soilNote === '' ? 'no belt is named; check the soil survey' : s.soilNote),
  },
  {
    field: 'radonZone',
    from: 'radonZone',
    label: 'Radon',
    value: (here) => here.radonZone,
    say: (_, here) => `EPA zone ${here.radonZone} for most houses; test whatever the zone`,
  },
  {
    field: 'quake',
    from: 'quake',
    label: 'Earthquake',
    say: (s) => `seismic design categories ${s.quake} over the state; check locally`,
  },
  {
    field: 'coast',
    from: 'coast',
    label: 'Salt air',
    say: (s) =>
      s.coast
        ? 'the state has a sea coast: ask how far salt water is (300 ft bites hardest, 3,000 ft still counts)'
        : 'no sea coast in this state',
  },
  {
    field: 'hurricane',
    from: 'hurricane',
    label: 'Hurricanes',
    say: (s) =>
      s.hurricane ? 'can be hit; check locally' : 'rarely reached; storms still come: check locally',
  },
  { field: 'snow', from: 'snow', label: 'Snow', say: (s) => `${s.snow}; check locally` },
  {
    field: 'floodNote',
    from: 'floodNote',
    label: 'Flood',
    say: (s) => `${s.floodNote === '' ? '' : `${s.floodNote}; `}look the address up on the flood map`,
  },
];

const TERMITE_BANDS = [
  'very heavy',
  'moderate to heavy',
  'slight to moderate',
  'slight (the map says none to slight, yet they are met in every state but Alaska)',
];

function termiteBand(band: number): string {
  return TERMITE_BANDS[band - 1] ?? '';
}

/** Every field of a place with its value, words, grade and sources. */
export function placeFields(base: Base, here: Here): PlaceField[] {
  return WORDINGS.map(({ field, from, label, value, say }) => ({
    field,
    label,
    value: value === undefined ? here.state[from] : value(here),
    say: say(here.state, here),
    grade: base.places.fields[from]?.grade ?? 'memory',
    source: sourcesOfField(base, here.state, from),
  }));
}
