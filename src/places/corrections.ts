import type { State } from '../../knowledge/schema/place.ts';

/** Values of the state table that a local rule or a survey contradicts; the source ids are in
 * knowledge/sources/places.yaml. A span without width was opened. */
const CORRECTIONS: { code: string; change: Partial<State>; source: string[] }[] = [
  { code: 'TN', change: { frostInches: [6, 12, 24] }, source: ['design-criteria-portland-tn'] },
  { code: 'VA', change: { frostInches: [12, 24, 30] }, source: ['design-criteria-stafford-va'] },
  { code: 'ND', change: { frostInches: [48, 48, 72] }, source: ['design-criteria-bismarck-nd'] },
  { code: 'OH', change: { frostInches: [30, 36, 48], termites: 2, termiteSpan: [2, 2] }, source: [] },
  { code: 'IN', change: { frostInches: [30, 36, 42] }, source: [] },
  { code: 'RI', change: { frostInches: [30, 40, 48] }, source: [] },
  { code: 'CT', change: { frostInches: [36, 42, 48] }, source: [] },
  { code: 'MA', change: { frostInches: [40, 48, 48], termites: 2 }, source: [] },
  {
    code: 'IA',
    change: { quake: 'A-B', termites: 2, termiteSpan: [2, 3] },
    source: ['design-criteria-missouri-valley-ia'],
  },
  { code: 'UT', change: { quake: 'B-E', termiteSpan: [2, 4] }, source: ['design-criteria-orem-ut'] },
  { code: 'DC', change: { hurricane: true }, source: ['fema-national-risk-index'] },
  { code: 'AZ', change: { snow: 'light; heavy in the mountains' }, source: ['usfs-snow-load'] },
  { code: 'AR', change: { snow: 'light' }, source: ['usfs-snow-load'] },
  { code: 'CA', change: { snow: 'light low down, heavy in the mountains' }, source: ['usfs-snow-load'] },
  {
    code: 'VA',
    change: { snow: 'light on the coast, moderate inland' },
    source: ['design-criteria-stafford-va'],
  },
  {
    code: 'WA',
    change: { snow: 'moderate low down, heavy in the mountains' },
    source: ['design-criteria-leavenworth-wa'],
  },
  {
    code: 'NC',
    change: { expansiveSoil: 'moderate', soilNote: 'Carolina terrane and Triassic basins' },
    source: ['nc-expansive-soils'],
  },
  { code: 'WY', change: { expansiveSoil: 'moderate' }, source: ['wy-expansive-soils'] },
  // Nothing that was read supports the 54 in. of the table.
  { code: 'VT', change: { frostInches: [48, 48, 60] }, source: [] },
  // "Low" over the state hides belts of clay like those of the neighbours.
  { code: 'DC', change: { soilNote: 'belts of clay run through; ask' }, source: [] },
  { code: 'MD', change: { soilNote: 'Coastal Plain and Piedmont clays in belts' }, source: [] },
  { code: 'SC', change: { soilNote: 'Coastal Plain and Piedmont clays in belts' }, source: [] },
];

/** The state with its corrections, and which source corrected which field. */
export function corrected(state: State): State {
  const own = CORRECTIONS.filter((c) => c.code === state.code);
  const sources: State['corrected'] = {};
  for (const { change, source } of own)
    for (const field of Object.keys(change)) sources[field] = [...(sources[field] ?? []), ...source];
  return Object.assign({}, state, ...own.map(({ change }) => change), { corrected: sources });
}
