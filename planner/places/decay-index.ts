/** A month of a climate station: mean temperature in degrees F and mean number of days with at least 0.01 inch of rain
 * or snow. */
export interface Month {
  meanF: number;
  wetDays: number;
}

/** What each month adds to the decay hazard index, times 30: (mean - 35)(wet days - 3), each factor at least 0.
 * Without the clamps a cold and dry month, negative twice, would count as decay. */
export function decayTerms(months: readonly Month[]): number[] {
  return months.map(({ meanF, wetDays }) => Math.max(0, meanF - 35) * Math.max(0, wetDays - 3));
}

/** Decay hazard index of wood above ground in the weather, after Scheffer (1971): 0 in deserts, about 150 in Miami.
 * It says nothing of crawl spaces, leaks or soil contact. */
export function decayIndex(months: readonly Month[]): number {
  if (months.length !== 12) throw new RangeError(`a year has 12 months, not ${months.length}`);
  return decayTerms(months).reduce((sum, term) => sum + term, 0) / 30;
}

export type DecayBand = 'low' | 'moderate' | 'high';

/** Bands as the Whole Building Design Guide has them: below 35 low, 35 to 65 moderate, above 65 high. Another
 * reading puts the upper cut at 70. */
export function decayBand(index: number): DecayBand {
  if (index < 35) return 'low';
  return index <= 65 ? 'moderate' : 'high';
}

/** Half-width of the doubt about an index carried from nearby stations: near a cut the band is undecided. Mean error
 * of leaving a station out is 4.6 (docs/places.md). */
export const DECAY_DOUBT = 6;

/** The band in words, with its doubt. */
export function decayBandInWords(index: number): string {
  const band = decayBand(index);
  const near = [35, 65].find((cut) => Math.abs(index - cut) <= DECAY_DOUBT);
  if (near === undefined) return band;
  return `${band}, but near the line between ${near === 35 ? 'low and moderate' : 'moderate and high'}`;
}
