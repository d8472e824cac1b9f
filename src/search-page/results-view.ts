import { oddsInWords } from '../../planner/condition/odds-words.ts';
import { h, type Mark } from '../markup/h.ts';
import { byKind } from '../search/group.ts';
import { highlight } from '../search/highlight.ts';
import type { SearchKind } from '../search/search-file.ts';
import { to } from '../site/link.ts';
import { SOON_WORDS } from '../site/words.ts';
import type { SearchHit } from './protocol.ts';

const KIND_NAMES: Record<SearchKind, string> = {
  failure: 'How it fails',
  material: 'What it is',
  system: 'Systems',
  check: 'How to look',
  era: 'Periods',
  clue: 'Clues',
  question: 'Questions',
  paper: 'Papers',
};

/** Results by kind: the name, the sign, how soon, the odds in the house, the check that confirms it. */
export function resultsView(hits: readonly SearchHit[]): Mark[] {
  return byKind(hits).map(({ kind, results }) =>
    h(
      'section',
      { class: 'hit-group' },
      h('h2', {}, KIND_NAMES[kind]),
      h('ul', { class: 'lines' }, results.map(hitItem)),
    ),
  );
}

function hitItem(hit: SearchHit): Mark {
  const { matched, title, answer, soon, odds, moved, check, checkPath } = hit;
  return h(
    'li',
    {},
    h('a', { href: to(hit.path), class: 'hit' }, marked(title, matched)),
    h(
      'div',
      { class: 'note' },
      h('p', {}, marked(answer, matched)),
      soon === null && odds === null
        ? null
        : h(
            'p',
            { class: 'hit-facts' },
            soon === null ? null : h('strong', {}, `${SOON_WORDS[soon].title}. `),
            odds === null ? null : `In this house: ${oddsInWords(odds)}${movedInWords(moved)}.`,
          ),
      check === null || checkPath === null
        ? null
        : h('p', { class: 'hit-check' }, 'To confirm: ', h('a', { href: to(checkPath) }, check.title)),
    ),
  );
}

function movedInWords(moved: SearchHit['moved']): string {
  return moved === null ? '' : `, which moves it ${moved} a little`;
}

function marked(text: string, matched: readonly string[]): (Mark | string)[] {
  return highlight(text, matched).map((s) => (s.hit ? h('mark', {}, s.text) : s.text));
}

/** Where nothing was found: terms that look like what was typed, and the way to the index of signs. */
export function nothingView(near: readonly string[]): Mark[] {
  return [
    ...(near.length === 0 ? [] : [h('p', {}, 'Terms that look like it:'), searchesList(near)]),
    h(
      'p',
      {},
      'Or look by the place in the house, or by what is seen, heard, smelt, felt or measured: ',
      h('a', { href: to('/symptoms/') }, 'every sign, by place and by sense'),
      '.',
    ),
  ];
}

/** Searches to choose from; each is an address of this page. */
export function searchesList(queries: readonly string[]): Mark {
  return h(
    'ul',
    { class: 'searches' },
    queries.map((q) => h('li', {}, h('a', { href: `#q=${encodeURIComponent(q)}` }, q))),
  );
}
