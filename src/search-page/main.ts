import { show } from '../markup/dom.ts';
import { h } from '../markup/h.ts';
import { to } from '../site/link.ts';
import { SearchEngine } from './engine.ts';
import { forgetSearches, keepSearch, keptHouse, recentSearches } from './kept.ts';
import { walkByKeys } from './keys.ts';
import type { SearchReply } from './protocol.ts';
import { nothingView, resultsView, searchesList } from './results-view.ts';

interface Parts {
  form: HTMLFormElement;
  box: HTMLInputElement;
  results: HTMLElement;
  status: HTMLElement;
  recent: HTMLElement;
  house: HTMLElement;
}

/** Results as one types. What was typed stands in the address behind `#`, which never leaves the device. */
function start({ form, box, results, status, recent, house }: Parts): void {
  const kept = keptHouse();
  let weigh = kept !== null;
  let latest = 0;
  /** Enter was pressed before the results were there: it goes to the first of them. */
  let wantsFirst = false;
  const engine = new SearchEngine(take);

  function ask(): void {
    const query = box.value.trim();
    history.replaceState(null, '', query === '' ? location.pathname : `#q=${encodeURIComponent(query)}`);
    latest += 1;
    recent.hidden = query !== '';
    house.hidden = query === '' || kept === null;
    if (query === '') {
      show(results, []);
      status.textContent = '';
      showRecent();
      return;
    }
    results.setAttribute('aria-busy', 'true');
    engine.ask({ id: latest, index: to('/search.json'), query, odds: weigh ? (kept?.odds ?? []) : [] });
  }

  function take(reply: SearchReply): void {
    if (reply.id !== latest) return;
    results.removeAttribute('aria-busy');
    if ('failed' in reply) {
      status.textContent = `The search could not be read: ${reply.failed}. The list below holds every entry.`;
      return;
    }
    const { hits, near } = reply;
    show(results, hits.length === 0 ? nothingView(near) : resultsView(hits));
    status.textContent = foundInWords(hits.length, box.value.trim());
    if (wantsFirst) goToFirst();
  }

  function goToFirst(): void {
    wantsFirst = false;
    results.querySelector<HTMLElement>('a.hit')?.focus();
  }

  function showRecent(): void {
    const searches = recentSearches();
    recent.hidden = searches.length === 0;
    const forget = h('button', { type: 'button', id: 'forget' }, 'Forget them');
    show(
      recent,
      searches.length === 0
        ? []
        : [h('h2', {}, 'Searched on this device'), searchesList(searches), h('p', {}, forget)],
    );
  }

  function showHouse(): void {
    if (kept === null) return;
    const says = weigh
      ? `Likelier entries stand a little higher: odds are those of the house planned last. ${kept.words} `
      : 'The odds of the house planned last are left aside. ';
    show(house, [
      says,
      h('button', { type: 'button', id: 'weigh' }, weigh ? 'Leave them aside' : 'Weigh them'),
    ]);
  }

  function fromAddress(): void {
    const query =
      new URLSearchParams(location.hash.slice(1)).get('q') ?? new URLSearchParams(location.search).get('q');
    if (query !== null && query !== box.value) box.value = query;
    if (query !== null || latest === 0) ask();
  }

  form.addEventListener('submit', (event) => {
    event.preventDefault();
    keepSearch(box.value);
    if (results.getAttribute('aria-busy') === 'true') wantsFirst = true;
    else goToFirst();
  });
  box.addEventListener('input', () => {
    wantsFirst = false;
    ask();
  });
  box.addEventListener('change', () => keepSearch(box.value));
  recent.addEventListener('click', ({ target }) => {
    if (!(target instanceof Element) || target.id !== 'forget') return;
    forgetSearches();
    showRecent();
    box.focus();
  });
  house.addEventListener('click', ({ target }) => {
    if (!(target instanceof Element) || target.id !== 'weigh') return;
    weigh = !weigh;
    showHouse();
    ask();
    document.getElementById('weigh')?.focus();
  });
  walkByKeys(box, results, ask);
  window.addEventListener('hashchange', fromAddress);
  showHouse();
  fromAddress();
}

function foundInWords(count: number, query: string): string {
  if (count === 0)
    return `Nothing found for “${query}”. Try another word for it: what it looks like, what it is made of, or what people call it.`;
  return count === 1 ? 'One entry.' : `${count} entries, nearest first within each kind.`;
}

const form = document.querySelector<HTMLFormElement>('#search');
const box = document.querySelector<HTMLInputElement>('#q');
const results = document.getElementById('results');
const status = document.getElementById('status');
const recent = document.getElementById('recent');
const house = document.getElementById('ranked-for');
if (form && box && results && status && recent && house) start({ form, box, results, status, recent, house });
