import type { Base } from '../../knowledge/schema/base.ts';

/** How a sign is met. */
export const SENSES = ['seen', 'heard', 'smelt', 'felt', 'measured'] as const;
export type Sense = (typeof SENSES)[number];

/** A sign in people's words and the failure mode it may mean. */
export interface Sign {
  say: string;
  failure: string;
}

export interface SignGroup {
  id: string;
  title: string;
  signs: Sign[];
}

/** Words by which a sign is known to be heard, smelt, felt or measured; what has none of them is seen. A sign may
 * be met in several ways. */
const SPOKEN_OF: Record<Exclude<Sense, 'seen'>, RegExp> = {
  heard:
    /\b(?:bang|knock|hiss|gurgl|hum\b|humming|buzz|click|nois|rattl|squeak|creak|chirp|beep|hammer|clank|whistl|sizzl|crackl|drumm|scratching|hears?\b|heard|loud)/i,
  smelt: /\b(?:smell|odou?r|stink|stench|musty|fume|reek|rotten.egg)/i,
  felt: /\b(?:soft|spongy|bounc|springy|shak|wobbl|loose|warm|hot\b|cold|draft|shock|tingle|zap|damp|humid|sticky|stuck|sticks|stiff|slop|uneven|trip|heavy)/i,
  measured:
    /\b(?:\d+\s*(?:amp|volt|psi|inch|feet|degree|year)|pressure|level\b|test|reading|meter|gauge|detector|tester|temperature|high radon|out of plumb|too (?:low|high))/i,
};

export function sensesOf(sign: string): Sense[] {
  const others = SENSES.filter((sense) => sense !== 'seen' && SPOKEN_OF[sense].test(sign));
  return others.length === 0 ? ['seen'] : others;
}

/** Every sign, by how it is met. */
export function signsBySense(base: Base): SignGroup[] {
  const signs = signsOf(base);
  const titles: Record<Sense, string> = {
    seen: 'Seen',
    heard: 'Heard',
    smelt: 'Smelt',
    felt: 'Felt',
    measured: 'Measured or tested',
  };
  return SENSES.map((sense) => ({
    id: sense,
    title: titles[sense],
    signs: signs.filter(({ say }) => sensesOf(say).includes(sense)),
  }));
}

/** A check that brings less of a failure mode to light than this does not make its place one to look for it. */
const TELLS = 0.3;

/** Every sign, by the places in the house where a check may well bring its failure mode to light. */
export function signsByPlace(base: Base): SignGroup[] {
  const places = new Map<string, Set<string>>();
  for (const { stop, finds } of base.checks)
    for (const { failure } of finds.filter(({ sensitivity }) => sensitivity >= TELLS))
      places.set(failure, (places.get(failure) ?? new Set()).add(stop));
  const signs = signsOf(base);
  return base.stops
    .map(({ id, title }) => ({ id, title, signs: signs.filter((s) => places.get(s.failure)?.has(id)) }))
    .filter((group) => group.signs.length > 0);
}

function signsOf(base: Base): Sign[] {
  return base.failures
    .flatMap(({ id, symptoms }) => symptoms.map((say) => ({ say, failure: id })))
    .sort((a, b) => compare(a.say.toLowerCase(), b.say.toLowerCase()) || compare(a.failure, b.failure));
}

const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
