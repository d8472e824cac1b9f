import { NOT } from '../../../planner/belief/not-met.ts';
import type { Look, Plan, PlanQuestion } from '../../../planner/plan-types.ts';
import { h, type Mark } from '../../markup/h.ts';
import { to, toEntry } from '../../site/link.ts';
import { ASKED_WORDS, WHERE_WORDS } from '../../site/words.ts';
import type { PlanWords } from '../words.ts';
import { folded } from './folded.ts';

const SHOWN = 3;

/** Questions by whom to ask; within each, the one worth most first. */
export function questionsView(plan: Plan, words: PlanWords, lean = false): Mark[] {
  const whom = [...new Set(plan.questions.map((q) => q.of))];
  return whom.map((of) => {
    const list = plan.questions.filter((q) => q.of === of);
    const rest = list.slice(SHOWN);
    return h(
      'section',
      {},
      h('h3', {}, `Ask ${ASKED_WORDS[of] ?? of}`),
      h(
        'ul',
        { class: 'asks' },
        list.slice(0, SHOWN).map((q) => questionItem(q, words)),
      ),
      folded(
        `ask-${of}`,
        rest.length > 0 ? `${rest.length} more, worth less` : null,
        lean
          ? null
          : () =>
              h(
                'ul',
                { class: 'asks' },
                rest.map((q) => questionItem(q, words)),
              ),
      ),
    );
  });
}

export function questionItem(q: PlanQuestion, words: PlanWords): Mark {
  return h(
    'li',
    {},
    h('p', { class: 'ask' }, q.ask),
    h('p', { class: 'small quiet' }, q.why),
    q.papers.length > 0 &&
      h(
        'p',
        { class: 'small' },
        'Papers: ',
        q.papers.map((id, i) => [
          i > 0 && ', ',
          h(
            'a',
            { href: to(`/questions/#paper-${encodeURIComponent(id)}`) },
            (words.papers[id]?.title ?? id).toLowerCase(),
          ),
        ]),
      ),
  );
}

/** What to look for before the visit: each would change the plan. */
export function looksView(looks: Look[]): Mark {
  return h(
    'ul',
    { class: 'asks' },
    looks
      .slice(0, 12)
      .map((look) =>
        h(
          'li',
          {},
          h('p', { class: 'ask' }, look.say),
          h(
            'p',
            { class: 'small quiet' },
            `Look ${look.where.map((w) => WHERE_WORDS[w] ?? w).join(', ')}. Bears on `,
            h('a', { href: toEntry('systems', look.system) }, look.system.replaceAll('-', ' ')),
            '.',
          ),
          h(
            'p',
            { class: 'look-tell screen-only' },
            tell(look.clue, look.missable ? 'Met' : 'It is so', look.say),
            look.missable && tell(NOT + look.clue, 'Not met', look.say),
          ),
        ),
      ),
  );
}

/** Ticks the clue in the form, so that the plan learns from it. */
function tell(clue: string, words: string, say: string): Mark {
  return h(
    'button',
    { type: 'button', class: 'small-action', 'data-tell': clue, 'aria-label': `${words}: ${say}` },
    words,
  );
}
