import type { BaseIndex } from '../base-index.ts';
import type { Condition } from '../condition/condition.ts';
import type { House } from '../house/house.ts';
import { HOT, OUTSIDE } from './day.ts';
import { makeGeometry } from './geometry.ts';
import { type Begin, makeProblem, type Problem } from './problem.ts';
import { makeTasks, type Tasks } from './tasks.ts';

/** The house's checks as a problem of choosing and timing. */
export function pose(
  index: BaseIndex,
  house: House,
  conditions: Condition[],
  shut: ReadonlyMap<string, string> = new Map(),
  begin?: (made: Tasks, at: ReadonlyMap<string, number>) => Begin,
): { problem: Problem; made: Tasks } {
  const geometry = makeGeometry(index.base.stops);
  const made = makeTasks(index, house, conditions, geometry.at, shut);
  const stop = (id: string): number => geometry.at.get(id) ?? -1;
  const problem = makeProblem({
    team: house.visit.team,
    trainees: house.visit.trainees,
    geometry,
    tasks: made.tasks,
    targets: made.targets,
    prefer: preferences(house).map(([a, b]): [number, number] => [stop(a), stop(b)]),
    ...(begin === undefined ? {} : { begin: begin(made, geometry.at) }),
  });
  return { problem, made };
}

const INSIDE = ['main-rooms', 'kitchen', 'baths', 'upper-rooms', 'attic', 'mechanical', 'panel', 'basement'];

/** Which stops come before which where nothing else decides: the outside while it is light, but an attic first on a
 * hot day. */
function preferences(house: House): [string, string][] {
  const { outdoorF, daylightMinutes, minutes } = house.visit;
  const dusk = daylightMinutes !== null && daylightMinutes < minutes;
  const hot = outdoorF !== null && outdoorF >= HOT;
  const outsideFirst = INSIDE.flatMap((room) => OUTSIDE.map((yard): [string, string] => [yard, room]));
  const usual: [string, string][] = [['street', 'exterior'], ['exterior', 'roof'], ...outsideFirst];
  if (!hot) return usual;
  const atticFirst = [...OUTSIDE, ...INSIDE].map((other): [string, string] => ['attic', other]);
  return dusk ? [...usual.filter(([, room]) => room !== 'attic')] : atticFirst;
}
