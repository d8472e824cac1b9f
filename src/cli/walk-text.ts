import type { Base } from '../../knowledge/schema/base.ts';
import type { Walk, WalkCheck, WalkStop } from '../../planner/plan-types.ts';
import { wrap } from './words.ts';

const WIDTH = 100;
/** Failure modes named under a check. */
const REASONS = 3;

/** The walk, stop by stop, with what stops it and whose leave it takes at the place where it matters. */
export function walkText(base: Base, walk: Walk): string[] {
  const titles = new Map(base.failures.map((failure) => [failure.id, failure.title.toLowerCase()]));
  const people = new Set(walk.stops.map((stop) => stop.person)).size;
  const lines = ['', `THE WALK: ${Math.round(walk.minutesUsed)} of ${walk.minutes} minutes`];
  if (!walk.feasible)
    lines.push(
      ...wrap(
        `${walk.minutes} minutes do not hold the required scope and the checks that guard life: they need ${Math.ceil(walk.minutesNeeded)}. Ask for the time or bring help; the house is not shaved to fit.`,
        WIDTH,
      ),
    );
  if (walk.tools.length > 0) lines.push(...wrap(`Bring: ${walk.tools.join(', ')}`, WIDTH, '', '  '));
  const stops = [...walk.stops].sort((a, b) => a.start - b.start || a.person - b.person);
  return [...lines, ...stops.flatMap((stop) => stopText(stop, people > 1, titles))];
}

function stopText(stop: WalkStop, team: boolean, titles: Map<string, string>): string[] {
  const who = team ? `, person ${stop.person}` : '';
  return [
    '',
    `${clock(stop.start)}  ${stop.title}${who} (${Math.round(stop.minutes)} min)`,
    ...stop.checks.flatMap((check) => checkText(check, titles)),
  ];
}

function checkText(check: WalkCheck, titles: Map<string, string>): string[] {
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
  for (const gate of check.gate) lines.push(...under(`STOP if ${gate.stopIf}: ${gate.do}`));
  for (const wait of check.waits)
    lines.push(...under(`wait ${wait.minutes} min after ${wait.after}: ${wait.why}`));
  return lines;
}

/** Minutes from arrival as h:mm. */
function clock(minutes: number): string {
  const whole = Math.round(minutes);
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, '0')}`;
}
