import type { Base } from '../../knowledge/schema/base.ts';
import { indexBase } from '../../planner/base-index.ts';
import { stockPrior } from '../../planner/house/priors.ts';
import { houseIn, reachableShare } from './survey-forecast.ts';
import { windowRows } from './survey-rows.ts';
import { type ScoredCell, scoredCell } from './survey-score.ts';
import { SURVEY_SYSTEMS } from './survey-systems.ts';

const SINGLE = ['wood-sash', 'wood-with-storms', 'steel-casement', 'aluminum-single-pane', 'jalousie'];
const FEWEST = 50;

/** Scores the planner on the single-pane windows of the zones kept out of the fit. States of those zones have houses in fitted zones too, so that the
 * test is of zones, not of states. `spread` stands in where the base has no fit. */
export function scoreWindows(base: Base, folder: string, spread?: number): ScoredCell<'single panes'>[] {
  const index = indexBase(base);
  const windows = index.systems.get('windows');
  const tested = SURVEY_SYSTEMS.find((s) => s.system === 'windows');
  if (windows === undefined || tested?.held === undefined) throw new Error('no system windows');
  const fitted = base.fits.find((f) => f.system === 'windows' && f.spread !== undefined)?.spread?.survey;
  const transfer = fitted ?? spread;
  if (transfer === undefined) throw new Error('no spread for windows');
  const rows = windowRows(base, folder).filter((row) => tested.held?.(row) && row.n >= FEWEST);
  return rows.map((row) => {
    const [zone = '', vintage = ''] = row.name.split(' ');
    const ours = (row.states ?? []).reduce((sum, { state, weight }) => {
      const years = stockPrior(base, state, row.asOf).filter(
        (y) => y.value >= Math.max(row.from, 1880) && y.value <= row.to,
      );
      const all = years.reduce((total, y) => total + y.p, 0);
      const share = years.reduce(
        (total, y) =>
          total +
          (y.p / all) * reachableShare(index, houseIn(base, state, y.value, row.asOf), windows, SINGLE),
        0,
      );
      return sum + weight * share;
    }, 0);
    const observed = row.answers.reduce((sum, a) => sum + (a.name.startsWith('single') ? a.share : 0), 0);
    const n = Math.round(row.n);
    return scoredCell({ of: 'single panes', place: zone, vintage, n, observed, ours }, row.n, transfer);
  });
}
