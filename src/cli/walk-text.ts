import type { Base } from '../../knowledge/schema/base.ts';
import type { Walk, WalkCheck, WalkStop } from '../../planner/plan-types.ts';
import { lowerFirst, wrap } from './words.ts';

const WIDTH = 100;
/** Checks named of those that more minutes would add. */
const MOST_NAMED = 6;
/** Failure modes named under a check. */
const REASONS = 3;

/** The walk, stop by stop, with what stops it and whose leave it takes at the place where it matters. */
export function walkText(base: Base, walk: Walk): string[] {
  const titles = new Map(base.failures.map((failure) => [failure.id, lowerFirst(failure.title)]));
  const people = new Set(walk.stops.map((stop) => stop.person)).size;
  const title = walk.feasible
    ? `THE WALK: ${Math.round(walk.minutesUsed)} of ${walk.minutes} minutes`
    : `THE WALK: needs ${Math.ceil(walk.minutesNeeded)} minutes, ${walk.minutes} are given`;
  const lines = ['', title];
  if (!walk.feasible)
    lines.push(
      ...wrap(
        `${walk.minutes} minutes do not hold the required scope and the checks that guard life: what follows is the least that does. Ask for the time or bring help; the house is not shaved to fit.`,
        WIDTH,
      ),
    );
  if (walk.tools.length > 0) lines.push(...wrap(`Bring: ${walk.tools.join(', ')}`, WIDTH, '', '  '));
  lines.push(...leaveText(walk), ...robustText(walk), ...moreText(base, walk));
  const stops = [...walk.stops].sort((a, b) => a.start - b.start || a.person - b.person);
  return [...lines, ...stops.flatMap((stop) => stopText(stop, people > 1, titles))];
}

/** Whose leave it takes: asked at the door, before anybody needs it. */
function leaveText(walk: Walk): string[] {
  const of = new Map<string, string[]>();
  for (const stop of walk.stops)
    for (const { permission } of stop.checks)
      if (permission !== null) of.set(permission.of, [...(of.get(permission.of) ?? []), permission.what]);
  return [...of].flatMap(([whom, what]) =>
    wrap(`Ask leave of the ${whom} at the door: ${[...new Set(what)].join('; ')}`, WIDTH, '', '  '),
  );
}

/** Whether the choice holds when odds and minutes are otherwise: in words, since it is no mark of quality. */
function robustText(walk: Walk): string[] {
  if (walk.survives === null) return [];
  const words =
    walk.survives >= 0.9
      ? 'What matters most in this walk stays in it nearly wherever odds and minutes lie in their ranges.'
      : walk.survives >= 0.6
        ? 'What matters most in this walk mostly stays in it where odds and minutes lie elsewhere in their ranges.'
        : 'Odds and minutes within their ranges would change what is chosen: trust what you see over this order.';
  return wrap(words, WIDTH);
}

function moreText(base: Base, walk: Walk): string[] {
  if (walk.more === null) return [];
  const titles = new Map<string, string>(base.checks.map((check) => [check.id, lowerFirst(check.title)]));
  const names = walk.more.checks.slice(0, MOST_NAMED).map((id) => titles.get(id) ?? id);
  const rest = walk.more.checks.length - names.length;
  const others = rest > 0 ? ` and ${rest} more` : '';
  return wrap(`${walk.more.minutes} more minutes would add: ${names.join('; ')}${others}`, WIDTH, '', '  ');
}

function stopText(stop: WalkStop, team: boolean, titles: Map<string, string>): string[] {
  // A gate that several checks of a stop share stands once, at the first of them.
  const told = new Set<string>();
  const who = team ? `, person ${stop.person}` : '';
  return [
    '',
    `${clock(stop.start)}  ${stop.title}${who} (${Math.round(stop.minutes)} min)`,
    ...stop.today.flatMap((say) => wrap(say, WIDTH, '       today: ', '         ')),
    ...stop.waits.flatMap((wait) =>
      wrap(`stand by ${Math.round(wait.minutes)} min: ${wait.why}`, WIDTH, '       ', '         '),
    ),
    ...stop.checks.flatMap((check) => checkText(check, titles, told)),
  ];
}

function checkText(check: WalkCheck, titles: Map<string, string>, told: Set<string>): string[] {
  const for_ = check.for.slice(0, REASONS).map((id) => titles.get(id) ?? id);
  const scope = check.scope === 'optional' ? '' : `, ${check.scope}`;
  const lines = wrap(
    `${check.title} (${Math.round(check.minutes)} min${scope})`,
    WIDTH,
    '       ',
    '         ',
  );
  const under = (text: string): string[] => wrap(text, WIDTH, '         ', '           ');
  if (for_.length > 0) lines.push(...under(`for ${for_.join('; ')}`));
  if (check.permission !== null)
    lines.push(...under(`LEAVE of the ${check.permission.of}: ${check.permission.what}`));
  for (const gate of check.gate) {
    const text = `STOP if ${gate.stopIf}: ${gate.do}`;
    if (!told.has(text)) lines.push(...under(text));
    told.add(text);
  }
  for (const wait of check.waits)
    lines.push(...under(`wait ${wait.minutes} min after ${wait.after}: ${wait.why}`));
  return lines;
}

/** Minutes from arrival as h:mm. */
function clock(minutes: number): string {
  const whole = Math.round(minutes);
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, '0')}`;
}
