import type { Plan } from '../../planner/plan-types.ts';
import { oddsOf } from '../search/house-odds.ts';

/** What the search keeps on this device, and nowhere else. Where nothing can be kept, it goes without. */
const RECENT = 'datestone searches';
const HOUSE = 'datestone house odds';
const MOST_RECENT = 8;

export interface KeptHouse {
  /** The house in words, to say whose odds they are. */
  words: string;
  odds: [string, number][];
}

/** Earlier searches, the latest first. */
export function recentSearches(): string[] {
  const kept = read(RECENT);
  return Array.isArray(kept) ? kept.filter((q) => typeof q === 'string').slice(0, MOST_RECENT) : [];
}

export function keepSearch(query: string): void {
  const words = query.trim().slice(0, 120);
  if (words.length < 2) return;
  const others = recentSearches().filter((q) => q.toLowerCase() !== words.toLowerCase());
  write(RECENT, [words, ...others].slice(0, MOST_RECENT));
}

export function forgetSearches(): void {
  write(RECENT, []);
}

/** Keeps the odds of the house that is being planned, so that the search can weigh them. */
export function keepHouse(plan: Pick<Plan, 'risks' | 'systems'>, words: string): void {
  const odds = [...oddsOf(plan)].map(([id, p]): [string, number] => [id, Math.round(p * 1000) / 1000]);
  write(HOUSE, { words, odds });
}

export function keptHouse(): KeptHouse | null {
  const kept = read(HOUSE);
  if (typeof kept !== 'object' || kept === null || !('words' in kept) || !('odds' in kept)) return null;
  const { words, odds } = kept;
  if (typeof words !== 'string' || !Array.isArray(odds)) return null;
  return { words, odds: odds.filter(isChance) };
}

function isChance(pair: unknown): pair is [string, number] {
  return Array.isArray(pair) && typeof pair[0] === 'string' && typeof pair[1] === 'number';
}

function read(name: string): unknown {
  try {
    return JSON.parse(localStorage.getItem(name) ?? 'null');
  } catch {
    return null;
  }
}

function write(name: string, value: unknown): void {
  try {
    localStorage.setItem(name, JSON.stringify(value));
  } catch {
    return;
  }
}
