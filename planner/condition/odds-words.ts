/** Bands of odds in words, from least to most. Figures are shown only when opened. */
export const ODDS_WORDS: { below: number; words: string }[] = [
  { below: 0.03, words: 'rare' },
  { below: 0.12, words: 'unlikely' },
  { below: 0.35, words: 'possible' },
  { below: 0.65, words: 'about even' },
  { below: 0.85, words: 'likely' },
  { below: 0.97, words: 'very likely' },
  { below: Number.POSITIVE_INFINITY, words: 'nearly always' },
];

export function oddsInWords(p: number): string {
  return ODDS_WORDS.find((band) => p < band.below)?.words ?? 'nearly always';
}
