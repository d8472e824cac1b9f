import type { Reason } from '../../../planner/plan-types.ts';
import { h, type Mark } from '../../markup/h.ts';
import { to } from '../../site/link.ts';
import { GRADE_WORDS } from '../../site/words.ts';
import type { PlanWords } from '../words.ts';

/** How a number came about, in the order in which things acted on it. */
export function whyList(reasons: Reason[], words: PlanWords): Mark | null {
  if (reasons.length === 0) return null;
  return h(
    'ol',
    { class: 'why' },
    reasons.map((reason) =>
      h(
        'li',
        {},
        reason.say,
        reason.grade !== null && h('span', { class: 'quiet' }, ` (${GRADE_WORDS[reason.grade].word})`),
        reason.source.map((id) => [
          ' ',
          h('a', { href: to(`/sources/#${encodeURIComponent(id)}`), class: 'cite' }, words.sources[id] ?? id),
        ]),
      ),
    ),
  );
}
