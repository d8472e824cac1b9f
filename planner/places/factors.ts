import type { PlaceFactor } from '../../knowledge/schema/common.ts';
import type { Grade } from '../../knowledge/schema/common.ts';
import type { State } from '../../knowledge/schema/place.ts';
import { clamp } from '../numerics/functions.ts';

/** How a place bears on a failure mode: odds are multiplied by `odds` to the power of the mode's strength. */
export interface PlaceEffect {
  odds: number;
  grade: Grade;
  say: string;
}

/** Effect of each factor in a state, bounded; 1 is the middle of the country. Fields known from memory may raise
 * odds by at most half again and lower them by at most a third, and radon is never lowered: nobody should skip a
 * look because of a band. */
export function placeEffect(factor: PlaceFactor, state: State): PlaceEffect {
  const memory = (odds: number, say: string): PlaceEffect => ({
    odds: clamp(odds, 0.67, 1.5),
    grade: 'memory',
    say: `${say}; check locally`,
  });
  switch (factor) {
    case 'decay':
      return {
        odds: clamp(state.decay[1] / MIDDLE_DECAY, 0.3, 2),
        grade: 'measured',
        say: `decay hazard index about ${Math.round(state.decay[1])} for exposed wood above ground`,
      };
    case 'termites':
      return {
        odds: [2.2, 1.3, 0.6, 0.2][state.termites - 1] ?? 1,
        grade: 'published',
        say: `termite pressure band ${state.termites} of 4 (1 is very heavy)`,
      };
    case 'freeze-thaw':
      return {
        odds: clamp(state.freezeThawDays / MIDDLE_FREEZE_THAW, 0.3, 1.6),
        grade: 'measured',
        say: `about ${Math.round(state.freezeThawDays)} freeze-thaw days a year`,
      };
    case 'frost':
      return memory(state.frostInches[2] > 0 ? 0.6 + state.frostInches[1] / 60 : 0.67, `frost to about ${state.frostInches[1]} in`);
    case 'expansive-soil':
      return memory({ low: 0.7, moderate: 1, high: 1.5 }[state.expansiveSoil], `expansive soil ${state.expansiveSoil}`);
    case 'salt':
      return memory(state.coast ? 1.3 : 0.67, state.coast ? 'salt air near the shore' : 'no sea coast');
    case 'quake':
      return memory(/[DE]/.test(state.quake) ? 1.5 : /C/.test(state.quake) ? 1 : 0.67, `seismic categories ${state.quake}`);
    case 'snow':
      return memory(/heavy/.test(state.snow) ? 1.4 : /moderate/.test(state.snow) ? 1 : 0.7, `snow ${state.snow}`);
    case 'wind':
      return memory(state.hurricane ? 1.4 : 0.9, state.hurricane ? 'hurricane winds' : 'no hurricane coast');
    case 'radon':
      return {
        odds: [1.8, 1.1, 1][state.radonZone - 1] ?? 1,
        grade: 'published',
        say: `radon zone ${state.radonZone}; test whatever the zone`,
      };
  }
}

/** Housing-weighted middle of the states' median decay index and freeze-thaw days. */
const MIDDLE_DECAY = 55;
const MIDDLE_FREEZE_THAW = 70;
