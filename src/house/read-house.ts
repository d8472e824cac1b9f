import type { z } from 'zod';
import type { HouseInput } from '../../planner/house/house.ts';
import type { Problem } from '../../planner/house/resolve.ts';
import { nearest } from '../../planner/house/words.ts';
import { House } from './house-schema.ts';

/** Reads a house file. Faults come back as problems: field, value, what is accepted, the nearest word. */
export function readHouse(text: string): { house: HouseInput } | { problems: Problem[] } {
  let value: unknown;
  try {
    value = JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    return {
      problems: [{ option: '', value: text.slice(0, 20), accepted: `a JSON object (${why})`, nearest: null }],
    };
  }
  const read = House.safeParse(value);
  if (read.success) return { house: read.data };
  return { problems: read.error.issues.map((issue) => problemOf(issue, value)) };
}

function problemOf(issue: z.core.$ZodIssue, whole: unknown): Problem {
  const option = issue.path.map(String).join('.');
  const value = shortJson(valueAt(whole, issue.path));
  switch (issue.code) {
    case 'unrecognized_keys': {
      const key = issue.keys[0] ?? '';
      const fields = fieldsAt(issue.path);
      return {
        option,
        value: key,
        accepted: `these fields: ${fields.join(', ')}`,
        nearest: nearest(key, fields),
      };
    }
    case 'invalid_value': {
      const words = issue.values.map(String);
      return { option, value, accepted: words.join(', '), nearest: nearest(value, words) };
    }
    case 'invalid_type':
      return { option, value, accepted: kindOf(issue.expected), nearest: null };
    case 'too_small':
    case 'too_big':
      return { option, value, accepted: boundOf(issue), nearest: null };
    default:
      return { option, value, accepted: issue.message.toLowerCase(), nearest: null };
  }
}

function boundOf(issue: z.core.$ZodIssueTooSmall | z.core.$ZodIssueTooBig): string {
  const unit = issue.origin === 'array' ? ' entries' : issue.origin === 'string' ? ' letters' : '';
  return issue.code === 'too_small' ? `${issue.minimum}${unit} or more` : `${issue.maximum}${unit} or fewer`;
}

function kindOf(expected: string): string {
  if (expected === 'int' || expected === 'number') return 'a whole number';
  if (expected === 'array') return 'a list';
  if (expected === 'object') return 'an object';
  return `a ${expected}`;
}

function valueAt(whole: unknown, path: PropertyKey[]): unknown {
  let at: unknown = whole;
  for (const key of path) {
    if (typeof at !== 'object' || at === null) return undefined;
    at = Reflect.get(at, key);
  }
  return at;
}

function shortJson(value: unknown): string {
  const text = typeof value === 'string' ? value : (JSON.stringify(value) ?? 'nothing');
  return text.length > 60 ? `${text.slice(0, 57)}...` : text;
}

/** Names of the fields that an object of the house file takes at a path. */
function fieldsAt(path: PropertyKey[]): string[] {
  const { shape } = House;
  if (path[0] === 'parts') return Object.keys(shape.parts.element.shape);
  if (path[0] === 'clues') return Object.keys(shape.clues.unwrap().element.shape);
  if (path[0] === 'visit') return Object.keys(shape.visit.unwrap().shape);
  return Object.keys(shape);
}
