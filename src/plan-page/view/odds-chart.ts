import type { Plan } from '../../../planner/plan-types.ts';
import { floorsOf, oddsStakes } from '../../drawings/odds-stakes.ts';
import { h, type Mark } from '../../markup/h.ts';
import { toEntry } from '../../site/link.ts';
import { stakesInWords } from '../../site/stakes.ts';
import { rangeInWords } from './risks.ts';

/** Odds against stakes, drawn, with the same figures as a list. */
export function oddsChart(plan: Plan): Mark[] {
  const floors = floorsOf(plan.risks);
  const count = floors.reduce((sum, floor) => sum + floor.risks.length, 0);
  return [
    h(
      'figure',
      { class: 'drawing' },
      oddsStakes(floors, `Odds, with their range, of ${count} risks, by how grave they are.`),
      h(
        'figcaption',
        {},
        'The dot is the best guess; the truth is on the line nine times in ten. Grave and far right comes first; grave and far left is what the checks that guard life are for.',
      ),
    ),
    h(
      'ol',
      { class: 'chart-key' },
      floors.flatMap((floor) =>
        floor.risks.map(({ risk }) =>
          h(
            'li',
            {},
            h('a', { href: toEntry('failures', risk.failure) }, risk.title),
            `: ${risk.odds}${rangeInWords(risk)}; ${stakesInWords(risk.stakes)}.`,
          ),
        ),
      ),
    ),
  ];
}
