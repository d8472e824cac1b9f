import { oddsInWords } from '../../../planner/condition/odds-words.ts';
import type { Plan, Risk } from '../../../planner/plan-types.ts';
import { oddsRule } from '../../drawings/odds-rule.ts';
import { fold, h, type Mark } from '../../markup/h.ts';
import { toEntry } from '../../site/link.ts';
import { stakesInWords } from '../../site/stakes.ts';
import { GRADE_WORDS, SOON_WORDS, SOONS } from '../../site/words.ts';
import type { PlanWords } from '../words.ts';
import { folded } from './folded.ts';
import { percent } from './odds-list.ts';
import { whyList } from './why.ts';

const SHOWN = 7;

/** Risks by how soon they matter, most pressing first; the tail of each group is folded. A lean view, made
 * at build, leaves the tails out. */
export function risksView(plan: Plan, words: PlanWords, lean = false): Mark[] {
  const main = plan.house.parts[0]?.name ?? '';
  return SOONS.flatMap((soon) => {
    const list = plan.risks.filter((r) => r.soon === soon);
    if (list.length === 0) return [];
    const rest = list.slice(SHOWN);
    return [
      h(
        'section',
        { class: `soon soon-${soon}` },
        h('h3', {}, SOON_WORDS[soon].title, ' ', h('span', { class: 'means' }, SOON_WORDS[soon].means)),
        h(
          'ol',
          { class: 'risks' },
          list.slice(0, SHOWN).map((r) => riskItem(r, words, main)),
        ),
        folded(
          `rest-${soon}`,
          rest.length > 0 ? `${rest.length} more, less pressing` : null,
          lean
            ? null
            : () =>
                h(
                  'ol',
                  { class: 'risks' },
                  rest.map((r) => riskItem(r, words, main)),
                ),
        ),
      ),
    ];
  });
}

/** A line that says what, where (if not in the main block) and how likely; opened, it says why. */
export function riskItem(risk: Risk, words: PlanWords, main: string): Mark {
  const text = words.failures[risk.failure];
  return h(
    'li',
    {},
    fold(
      { class: 'opens risk', 'data-key': `risk-${risk.failure}-${risk.part}` },
      h(
        'summary',
        {},
        h(
          'span',
          { class: 'risk-name' },
          risk.title,
          risk.part !== main && h('span', { class: 'means' }, `, ${risk.part}`),
        ),
        h(
          'span',
          { class: 'risk-odds' },
          oddsRule(risk.low, risk.probability, risk.high),
          h(
            'span',
            {},
            h('strong', {}, risk.odds),
            h('span', { class: 'quiet' }, rangeInWords(risk), inOneInWords(risk)),
          ),
        ),
      ),
      () => [
        h('p', {}, text?.say ?? ''),
        typeof text?.tellNow === 'string' &&
          h('p', { class: 'small' }, h('strong', {}, 'If it is met: '), text.tellNow),
        text !== undefined && h('p', { class: 'small' }, `Who to call: ${text.call}.`),
        h(
          'p',
          { class: 'small' },
          `Of a hundred houses like this, about ${percent(risk.probability).replace('%', '')} have it${risk.units === undefined ? '' : ' in at least one dwelling'}: `,
          `${percent(risk.low)} to ${percent(risk.high)}, nine times in ten. `,
          `Known from: ${GRADE_WORDS[risk.grade].word}. At stake: ${stakesInWords(risk.stakes)}.`,
          risk.lifeSafety && ' Guards life: its checks are never traded for minutes.',
        ),
        whyList(risk.why, words),
        h(
          'p',
          {},
          h('a', { class: 'read-on', href: toEntry('failures', risk.failure) }, `Read on: ${risk.title}`),
        ),
      ],
    ),
  );
}

/** The range, in the same words as the odds; left out where both ends are the same word. */
export function rangeInWords(risk: Risk): string {
  const low = oddsInWords(risk.low);
  const high = oddsInWords(risk.high);
  return low === high ? '' : `, from ${low} to ${high}`;
}

/** Of several dwellings the odds are those of at least one; the odds in any one are told where the words differ. */
export function inOneInWords({ odds, units }: Risk): string {
  const one = units === undefined ? odds : oddsInWords(units.anyOne);
  return one === odds ? '' : `; in any one dwelling ${one}`;
}
