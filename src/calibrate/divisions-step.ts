import type { State } from '../../knowledge/schema/place.ts';
import { foldsOfDivisions } from '../places/foundation-divisions.ts';
import type { Step } from './steps.ts';

/** Factors of census divisions on the kinds of foundation, chosen by cross-validation inside the energy survey of 2001. The factors
 * are fitted where the places are made (`src/places/foundation-divisions.ts`). */
export const divisionsStep: Step = {
  id: 'divisions',
  sections({ folder, base }) {
    const { states, stock, foundations } = base.places;
    const folds = (of: State[], changing: boolean): number[] =>
      foldsOfDivisions(folder, foundations, of, stock, changing).map((cell) => cell.divergence);
    const single = states.map((s) => ({ ...s, zones: { [s.zone]: 1 } }));
    const first = folds(single, false);
    const tried: [string, number[]][] = [
      ['zone of most houses; constant', first],
      ['zone of most houses; changing', folds(single, true)],
      ['zones by share; constant', folds(states, false)],
      ['zones by share; changing (used)', folds(states, true)],
    ];
    return [
      [
        '## Foundation kinds by division',
        '',
        'A census division multiplies the shares of its climate zones (basement, slab, mixed, against raised). Whether its factors change over',
        'build years, and whether a state is taken as its commonest zone or as all of its zones, was tried inside the energy survey',
        `of 2001 (\`recs-2001\`): each vintage of the ${first.length} cells (nine divisions, four vintages) forecast by factors fitted to the other`,
        'three. Divergence of the shares observed from the forecast, in nats over all households; the difference to the first line with its standard',
        'error over cells. The housing survey had no part in it.',
        '',
        '| a state is; the factors are | divergence | difference | better in |',
        '| --- | --: | --: | --: |',
        ...tried.map(([name, cells]) => line(name, cells, first)),
      ],
    ];
  },
};

function line(name: string, cells: number[], first: number[]): string {
  const differences = cells.map((v, i) => v - (first[i] ?? 0));
  const total = sum(differences);
  const mean = total / cells.length;
  const error = Math.sqrt((cells.length / (cells.length - 1)) * sum(differences.map((d) => (d - mean) ** 2)));
  const against =
    cells === first
      ? ' |  '
      : `${total.toFixed(1)} ± ${error.toFixed(1)} | ${differences.filter((d) => d < 0).length} of ${cells.length}`;
  return `| ${name} | ${sum(cells).toFixed(1)} | ${against} |`;
}

function sum(values: number[]): number {
  return values.reduce((total, v) => total + v, 0);
}
