import type { Grade, PlaceFactor } from '../../knowledge/schema/common.ts';
import type { State } from '../../knowledge/schema/place.ts';
import type { Here } from './here.ts';

/** What a place factor rests on: the field of the place, how well the amount is known, and how far it may move the
 * odds of a failure mode. How much odds move for a band or an index is common practice at best: no study was found that
 * measures it, so nothing here is graded better than that, however well the field itself is known. Fields from memory
 * may raise odds by at most half and lower them by at most a third. */
export interface FactorBasis {
  field: keyof State;
  grade: Grade;
  low: number;
  high: number;
}

const FROM_MEMORY = { grade: 'memory', low: 0.67, high: 1.5 } as const;

export const FACTOR_BASIS: Record<PlaceFactor, FactorBasis> = {
  decay: { field: 'decay', grade: 'practice', low: 0.3, high: 2 },
  termites: { field: 'termites', grade: 'memory', low: 0.2, high: 2.2 },
  'freeze-thaw': { field: 'freezeThawDays', grade: 'practice', low: 0.3, high: 1.6 },
  frost: { field: 'frostInches', ...FROM_MEMORY },
  'expansive-soil': { field: 'expansiveSoil', ...FROM_MEMORY },
  salt: { field: 'coast', ...FROM_MEMORY },
  quake: { field: 'quake', ...FROM_MEMORY },
  snow: { field: 'snow', ...FROM_MEMORY },
  wind: { field: 'hurricane', ...FROM_MEMORY },
  // Radon is never a reason to skip a test: the band may raise the odds, and lowers them by a quarter at most.
  radon: { field: 'radonZone', grade: 'practice', low: 0.75, high: 1.8 },
};

/** Odds of a factor at a place on any scale: only ratios between places count, the scale is set in `normaliser.ts`. */
export function rawOdds(factor: PlaceFactor, { state, decay, radonZone, shore }: Here): number {
  switch (factor) {
    case 'decay':
      return decay / 55;
    case 'termites':
      return [2.2, 1.3, 0.6, 0.25][state.termites - 1] ?? 1;
    case 'freeze-thaw':
      return state.freezeThawDays / 70;
    case 'frost':
      return 0.6 + state.frostInches[1] / 60;
    case 'expansive-soil':
      return { low: 0.7, moderate: 1, high: 1.5 }[state.expansiveSoil];
    case 'salt':
      if (!state.coast) return 0.8;
      return { 'within-3000-ft': 2, farther: 0.8, unknown: 0.8 + 1.2 * NEAR_SHORE }[shore];
    case 'quake':
      return 0.67 + 0.25 * middleCategory(state.quake);
    case 'snow':
      // Where only the mountains are snowy, most houses are not in them.
      if (/mountains/.test(state.snow)) return 1;
      return /heavy/.test(state.snow) ? 1.4 : /moderate/.test(state.snow) ? 1 : 0.7;
    case 'wind':
      return state.hurricane ? 1.4 : 0.9;
    case 'radon':
      return [1.8, 1.1, 0.9][radonZone - 1] ?? 1;
  }
}

/** Middle of a span of seismic design categories, A as 0 to E as 4. Most spans are wide because one corner shakes. */
function middleCategory(span: string): number {
  const letters = span.match(/[A-E]/g) ?? [];
  const ranks = letters.map((letter) => 'ABCDE'.indexOf(letter));
  return ranks.reduce((sum, rank) => sum + rank, 0) / Math.max(1, ranks.length);
}

/** Houses of a coastal state that stand within 3,000 feet of salt water, where nobody answered (practice: the state
 * table says only that there is a coast). */
const NEAR_SHORE = 0.15;

/** What a reader is told of the factor, without the amount. */
export function factorInWords(factor: PlaceFactor, { state, decay, radonZone, shore }: Here): string {
  switch (factor) {
    case 'decay':
      return `decay hazard index about ${Math.round(decay)}, for exposed wood above ground`;
    case 'termites':
      return `termite pressure band ${state.termites} of 4 (1 is very heavy); check locally`;
    case 'freeze-thaw':
      return `about ${Math.round(state.freezeThawDays)} freeze-thaw days a year`;
    case 'frost':
      return `frost to about ${state.frostInches[1]} in; check locally`;
    case 'expansive-soil':
      return `swelling soil ${state.expansiveSoil} over the state; the ground differs lot by lot, check locally`;
    case 'salt':
      if (!state.coast) return 'no sea coast in this state';
      return {
        'within-3000-ft': 'salt water within 3,000 feet',
        farther: 'salt water farther than 3,000 feet',
        unknown: 'a coastal state, distance to salt water not given',
      }[shore];
    case 'quake':
      return `seismic categories ${state.quake} over the state; check locally`;
    case 'snow':
      return `snow ${state.snow}; check locally`;
    case 'wind':
      return state.hurricane ? 'hurricane winds can reach it; check locally' : 'hurricanes rarely reach it';
    case 'radon':
      return `radon zone ${radonZone}; test whatever the zone`;
  }
}
