import { oddsInWords } from '../../../planner/condition/odds-words.ts';
import type { Plan, Risk } from '../../../planner/plan-types.ts';
import { oddsRule } from '../../drawings/odds-rule.ts';
import { h, type Mark } from '../../markup/h.ts';
import { toEntry } from '../../site/link.ts';
import { stakesInWords } from '../../site/stakes.ts';
import { GRADE_WORDS, SOON_WORDS, SOONS } from '../../site/words.ts';
import type { PlanWords } from '../words.ts';
import { percent } from './odds-list.ts';
import { whyList } from './why.ts';

const SHOWN = 7;

/** Risks by how soon they matter, most pressing first; the tail of each group is folded. */
export function risksView(plan: Plan, words: PlanWords): Mark[] {
  const several = plan.house.parts.length > 1;
  return SOONS.flatMap((soon) => {
    const list = plan.risks.filter((r) => r.soon === soon);
    if (list.length === 0) return [];
    const rest = list.slice(SHOWN);
    return [
      h(
        'section',
        { class: `soon soon-${soon}` },
        h('h3', {}, SOON_WORDS[soon].title, ' ', h('span', { class: 'means' }, SOON_WORDS[soon].means)),
        h('ol', { class: 'risks' }, list.slice(0, SHOWN).map((r) => riskItem(r, words, several))),
        rest.length > 0 &&
          h(
            'details',
            { 'data-key': `rest-${soon}` },
            h('summary', {}, `${rest.length} more, less pressing`),
            h('ol', { class: 'risks' }, rest.map((r) => riskItem(r, words, several))),
          ),
      ),
    ];
  });
}

export function riskItem(risk: Risk, words: PlanWords, several: boolean): Mark {
  return h(
    'li',
    {},
    h(
      'div',
      { class: 'risk-line' },
      h('a', { class: 'risk-name', href: toEntry('failures', risk.failure) }, risk.title),
      h(
        'span',
        { class: 'risk-odds' },
        oddsRule(risk.low, risk.probability, risk.high),
        h('span', {}, h('strong', {}, risk.odds), h('span', { class: 'quiet' }, rangeInWords(risk))),
      ),
    ),
    h(
      'details',
      { 'data-key': `risk-${risk.failure}-${risk.part}` },
      h('summary', { class: 'small' }, 'Why', h('span', { class: 'hidden-words' }, `: ${risk.title}`)),
      several && h('p', { class: 'small quiet' }, `In the ${risk.part}.`),
      h(
        'p',
        { class: 'small' },
        `Of a hundred houses like this, about ${percent(risk.probability).replace('%', '')} have it; between `,
        `${percent(risk.low)} and ${percent(risk.high)}, nine times in ten. `,
        `Known from: ${GRADE_WORDS[risk.grade].word}. At stake: ${stakesInWords(risk.stakes)}.`,
      ),
      risk.lifeSafety && h('p', { class: 'small' }, 'Guards life: its checks are never traded for minutes.'),
      whyList(risk.why, words),
    ),
  );
}

/** The range, in the same words as the odds; left out where both ends are the same word. */
export function rangeInWords(risk: Risk): string {
  const low = oddsInWords(risk.low);
  const high = oddsInWords(risk.high);
  if (low === high) return '';
  return `, may be ${low} to ${high}`;
}
