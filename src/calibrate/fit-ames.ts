import type { Base } from '../../knowledge/schema/base.ts';
import type { Fit } from '../../knowledge/schema/fit.ts';
import { AMES_SYSTEMS, type AmesHouse } from './ames.ts';
import { outOfFold } from './cross-validate.ts';
import { designOf } from './design.ts';
import { type FitRow, fitProcess, fitSubject } from './fit-process.ts';
import { groupsOf } from './groups.ts';
import { roundedFit } from './rounded-fit.ts';
import { worthOf } from './worth.ts';

/** Systems whose records tell kinds, not machines: their fitted lives say how long a house stays with a kind. */
const KEEPS_KIND: readonly string[] = ['cooling', 'heating-plant'];

/** Fits each tested system to the rows that are not kept out. Services renew much the same way all over, so that fit
 * stands everywhere; the others stand in Iowa alone, where their market is. */
export function fitAmes(
  base: Base,
  houses: readonly AmesHouse[],
  made: Omit<Fit['made'], 'rows'>,
  log: (line: string) => void,
): Fit[] {
  return AMES_SYSTEMS.map((tested) => {
    const rows = fitRows(houses, tested.system);
    log(`${tested.title}: ${rows.length} rows`);
    const subject = fitSubject(base, tested);
    const process = fitProcess(subject, rows, designOf(tested.system));
    const worth = worthOf(
      outOfFold(subject, houses, designOf(tested.system)).flatMap((fold) =>
        groupsOf(fold, Object.keys(tested.classes)),
      ),
    );
    log(`  as sure as a count of ${worth} houses`);
    return roundedFit(process, {
      system: tested.system,
      states: tested.system === 'service-equipment' ? null : ['IA'],
      keepsKind: KEEPS_KIND.includes(tested.system),
      odds: { worth, state: 'IA' },
      made: { ...made, rows: rows.length },
    });
  });
}

/** Rows that a fit may see: those that are not kept out and name a class. */
export function fitRows(houses: readonly AmesHouse[], system: string): FitRow[] {
  return houses.flatMap((house) => {
    const name = house.classes[system] ?? null;
    return house.held || name === null ? [] : [{ built: house.built, name }];
  });
}
