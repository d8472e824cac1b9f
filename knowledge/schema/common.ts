import { z } from 'zod';
import { FORMS, FOUNDATIONS, FUELS, PLACE_FACTORS, ROOFS, SEWERS, WALLS, WATERS } from './words.ts';

/** An id is the entry's file name or key: lower-case trade words joined by hyphens, never reused. */
export const Id = z.string().regex(/^[a-z0-9]+(-[a-z0-9]+)*$/, 'use lower-case words joined by hyphens');

/** How well a figure is known: measured (survey, data set), published (handbook, standard, statute),
 * practice (common practice, no source) or memory (recalled, unchecked: shown as "from memory"). */
export const Grade = z.enum(['measured', 'published', 'practice', 'memory']);
export type Grade = z.infer<typeof Grade>;

/** One plain sentence; ends with a full stop or a question mark. */
export const Sentence = z.string().min(8).max(420);
/** A few words, no full stop needed. */
export const Phrase = z.string().min(2).max(220);

/** Where a statement comes from. Measured and published statements name at least one source id. */
export const Backing = { grade: Grade, source: z.array(Id).default([]) };

export function backed<T extends { grade: Grade; source: string[] }>(value: T): boolean {
  return value.grade === 'practice' || value.grade === 'memory' || value.source.length > 0;
}
export const backedMessage = {
  message: 'grade measured or published needs at least one source id; else use practice or memory',
};

/** A number with its range and backing: best guess, and low and high that hold it nine times in ten. */
export const Figure = z
  .strictObject({ best: z.number(), low: z.number(), high: z.number(), ...Backing })
  .refine((f) => f.low <= f.best && f.best <= f.high, { message: 'needs low <= best <= high' })
  .refine(backed, backedMessage);
export type Figure = z.infer<typeof Figure>;

/** A figure that is a probability, 0 to 1. */
export const Share = Figure.refine((f) => f.low >= 0 && f.high <= 1, { message: 'must lie in 0..1' });

/** Houses that something applies to. Every key named must hold; a list means any of these.
 * Unknown inputs count by their odds, they are never taken as no. */
export const When = z.strictObject({
  foundation: z.array(z.enum(FOUNDATIONS)).optional(),
  walls: z.array(z.enum(WALLS)).optional(),
  roof: z.array(z.enum(ROOFS)).optional(),
  form: z.array(z.enum(FORMS)).optional(),
  water: z.array(z.enum(WATERS)).optional(),
  sewer: z.array(z.enum(SEWERS)).optional(),
  fuel: z.array(z.enum(FUELS)).optional(),
  builtFrom: z.number().int().optional(),
  builtBefore: z.number().int().optional(),
  storeysAtLeast: z.number().int().optional(),
  /** Storeys and a basement, if there is one. */
  levelsAtLeast: z.number().int().optional(),
  unitsAtLeast: z.number().int().optional(),
});
export type When = z.infer<typeof When>;

export const PlaceFactor = z.enum(PLACE_FACTORS);
export type PlaceFactor = z.infer<typeof PlaceFactor>;
