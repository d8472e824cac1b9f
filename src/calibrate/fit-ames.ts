import type { Base } from '../../knowledge/schema/base.ts';
import type { Fit } from '../../knowledge/schema/fit.ts';
import { AMES_SYSTEMS, type AmesHouse } from './ames.ts';
import { classChances } from './likelihood.ts';
import { minimise } from './minimise.ts';
import { Parameters, type Process, roundedFit } from './parameters.ts';

const FROM = 1870;
/** Houses were seen when sold, 2006 to 2010; the fit takes the middle year for all. */
const SEEN = 2008;
const ITERATIONS = 60;

/** Fits each tested system to the rows that are not kept out. Services and cooling renew much the same way all
 * over; the fit stands everywhere for the service, and in Iowa alone where markets are local. */
export function fitAmes(
  base: Base,
  houses: AmesHouse[],
  made: Fit['made'],
  log: (line: string) => void,
): Fit[] {
  return AMES_SYSTEMS.map((tested) => {
    const system = base.systems.find((s) => s.id === tested.system);
    if (system === undefined) throw new Error(`knowledge/systems/${tested.system}.mdx is not there`);
    const materials = base.materials.filter((m) => m.system === system.id);
    const counts = countRows(houses, tested.system);
    const start: Process = {
      shares: system.shares,
      lives: Object.fromEntries(materials.map((m) => [m.id, m.life.best])),
      waves: system.waves,
    };
    const parameters = new Parameters(start);
    const objective = (x: Float64Array): number => {
      const chances = classChances(parameters.apply(x), materials, tested.classes, FROM, SEEN);
      let loss = parameters.penalty(x);
      for (const { built, name, n } of counts)
        loss -=
          n *
          Math.log(Math.max(chances[name]?.[Math.min(SEEN - FROM, Math.max(0, built - FROM))] ?? 0, 1e-9));
      return loss;
    };
    log(`${tested.title}: ${parameters.length} parameters, ${counts.reduce((a, c) => a + c.n, 0)} rows`);
    const result = minimise(objective, new Float64Array(parameters.length), {
      iterations: ITERATIONS,
      step: 1e-3,
      log,
    });
    return roundedFit(parameters.apply(result.x), {
      system: system.id,
      states: tested.system === 'service-equipment' ? null : ['IA'],
      made: { ...made, rows: counts.reduce((a, c) => a + c.n, 0) },
    });
  });
}

function countRows(houses: AmesHouse[], system: string): { built: number; name: string; n: number }[] {
  const counts = new Map<string, { built: number; name: string; n: number }>();
  for (const house of houses) {
    const name = house.classes[system];
    if (house.held || name === null || name === undefined) continue;
    const key = `${house.built} ${name}`;
    const row = counts.get(key) ?? { built: house.built, name, n: 0 };
    row.n++;
    counts.set(key, row);
  }
  return [...counts.values()];
}
