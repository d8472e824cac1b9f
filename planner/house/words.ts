import {
  COASTS,
  FORMS,
  FOUNDATIONS,
  FUELS,
  HAZARDS,
  ROOFS,
  SEWERS,
  WALLS,
  WATERS,
} from '../../knowledge/schema/words.ts';

/** The word that a person most likely meant: fewest edits, at most a third of its letters; else null. */
export function nearest(word: string, accepted: readonly string[]): string | null {
  let best: string | null = null;
  let fewest = Number.POSITIVE_INFINITY;
  for (const candidate of accepted) {
    const prefix = word.length >= 2 && candidate.startsWith(word.toLowerCase());
    const edits = prefix ? 0.5 : distance(word.toLowerCase(), candidate.toLowerCase());
    if (edits < fewest) {
      fewest = edits;
      best = candidate;
    }
  }
  return best !== null && fewest <= Math.max(1, Math.ceil(best.length / 3)) ? best : null;
}

/** Edits (insert, delete, replace, swap of neighbours) from one word to another. */
export function distance(a: string, b: string): number {
  const rows: number[][] = [Array.from({ length: b.length + 1 }, (_, j) => j)];
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const replace = (rows[i - 1]?.[j - 1] ?? 0) + (a[i - 1] === b[j - 1] ? 0 : 1);
      let cost = Math.min((rows[i - 1]?.[j] ?? 0) + 1, (row[j - 1] ?? 0) + 1, replace);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        cost = Math.min(cost, (rows[i - 2]?.[j - 2] ?? 0) + 1);
      row.push(cost);
    }
    rows.push(row);
  }
  return rows[a.length]?.[b.length] ?? 0;
}

/** What each input takes, besides `unknown`. */
export const ACCEPTED = {
  foundation: FOUNDATIONS,
  walls: WALLS,
  roof: ROOFS,
  form: FORMS,
  water: WATERS,
  sewer: SEWERS,
  fuel: FUELS,
  coast: COASTS,
  occupied: ['occupied', 'vacant'],
  utilities: ['on', 'off'],
  yearSource: ['assessor', 'listing', 'owner', 'deed', 'permit', 'map', 'datestone'],
  signedOff: HAZARDS,
  client: ['children', 'unsteady', 'thin-reserves', 'renovating', 'breathing', 'landlord'],
} as const;
