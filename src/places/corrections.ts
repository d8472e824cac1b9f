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
];

export function corrected(state: State): State {
  const changes = CORRECTIONS.filter((c) => c.code === state.code).map(({ change }) => change);
  return Object.assign({}, state, ...changes);
}

/** Sources of the corrections, by field that they touch. */
export function correctionSources(): Map<string, string[]> {
  const byField = new Map<string, string[]>();
  for (const { change, source } of CORRECTIONS)
    for (const field of Object.keys(change)) {
      const known = byField.get(field) ?? [];
      byField.set(field, [...known, ...source.filter((id) => !known.includes(id))]);
    }
  return byField;
}
