import type { HouseInput } from '../../planner/house/house.ts';
import { show } from '../markup/dom.ts';
import { keepHouse } from '../search-page/kept.ts';
import { to } from '../site/link.ts';
import { DEMO } from './demo.ts';
import { PlanEngine } from './engine.ts';
import {
  oneOfClue,
  readForm,
  showAdditions,
  showClues,
  showProblems,
  tellClue,
  writeForm,
} from './form/form-state.ts';
import { act, isAct } from './marks/act.ts';
import { MarksStore } from './marks/marks-store.ts';
import { walkInput, withoutChecks } from './marks/walk-marks.ts';
import { MOST_PARTS, partNumbers, readParams } from './params.ts';
import type { PlanAnswer } from './protocol.ts';
import { focusOn, foldStops, goOn, openForPaper } from './stops-open.ts';
import { houseInWords } from './view/house-words.ts';
import { planView } from './view/plan.ts';

/** The planning page: inputs change, the address follows, the plan is worked out anew. */
const WAIT = 140;

function start(form: HTMLFormElement, result: HTMLElement): void {
  const status = document.getElementById('status');
  const demoNote = document.getElementById('demo-note');
  const ownNote = document.getElementById('own-note');
  const briefLink = document.querySelector<HTMLAnchorElement>('#brief-link');
  const engine = new PlanEngine(to('/base.json'), receive);
  let params = new URLSearchParams(DEMO);
  let timer = 0;
  let written = '';
  const marks = new MarksStore();
  /** A clue was told in the list of looks: the keyboard goes back there. */
  let told = false;
  let latest: Extract<PlanAnswer, { kind: 'plan' }> | null = null;

  function receive(answer: PlanAnswer): void {
    result.removeAttribute('aria-busy');
    if (answer.kind === 'plan') {
      showProblems(form, [], params);
      latest = answer;
      show(result, planView(answer.plan, answer.words, marks.read(params)));
      result.dataset.hash = params.toString();
      if (told) take(document.getElementById('before'));
      told = false;
      // The search weighs the odds of the house in hand; the house shown as an example is nobody's.
      if (written !== '') keepHouse(answer.plan, houseInWords(answer.plan.house, answer.words.place));
      say(
        answer.plan.walk.feasible
          ? 'The plan is up to date.'
          : 'The plan is up to date; the visit is too short.',
      );
    } else if (answer.kind === 'problems') {
      const gone = answer.problems
        .filter((p) => p.option === 'pin' || p.option === 'drop')
        .map((p) => p.value);
      if (gone.length > 0) {
        marks.write(params, withoutChecks(marks.read(params), gone));
        ask();
        return;
      }
      say(`${showProblems(form, answer.problems, params)} The plan below is the one before.`);
    } else say(`No plan could be made: ${answer.message}. Reload the page to try again.`);
  }

  /** A press on a stop's button. The keyboard stays with the stop; when it is done, it goes on to the next. */
  function press(button: HTMLElement): void {
    const { act: what = '', stop: key = '' } = button.dataset;
    if (latest === null || !isAct(what)) return;
    const { plan, words } = latest;
    const next = act(plan.walk.stops, marks.read(params), what, key);
    const kept = marks.write(params, next.marks);
    if (what === 'aside' || what === 'back' || what === 'pin') ask();
    show(result, planView(plan, words, next.marks));
    if (what === 'done' && next.marks.done.includes(key)) goOn(result, key);
    else focusOn(result, what, key);
    say(kept ? next.say : `${next.say} This device keeps nothing: it is lost when the page closes.`);
  }

  function say(words: string): void {
    if (status !== null) status.textContent = words;
  }

  function follow(isDemo: boolean): void {
    // One note takes the place of the other, so that nothing below it moves.
    if (demoNote !== null) demoNote.hidden = !isDemo;
    if (ownNote !== null) ownNote.hidden = isDemo;
    if (briefLink !== null) briefLink.href = isDemo ? to('/brief/') : `${to('/brief/')}#${params.toString()}`;
  }

  /** The page as built leaves out what is folded away; the first plan brings it. */
  function fillDemo(): void {
    params.set('as-of', String(new Date().getFullYear()));
    engine.ask(input());
  }

  function input(): HouseInput {
    return { ...readParams(params), walk: walkInput(marks.read(params)) };
  }

  function ask(): void {
    if (result.dataset.hash === undefined) say('Working out the plan …');
    result.setAttribute('aria-busy', 'true');
    engine.ask(input());
  }

  function changed(): void {
    params = readForm(form);
    written = `#${params.toString()}`;
    history.replaceState(null, '', written);
    showClues(form, params);
    follow(false);
    ask();
  }

  function fromAddress(): void {
    if (location.hash === written && written !== '') return;
    const given = new URLSearchParams(location.hash.length > 1 ? location.hash.slice(1) : location.search);
    if ([...given].length === 0) {
      follow(true);
      if (written !== '') {
        params = new URLSearchParams(DEMO);
        writeForm(form, params);
        ask();
      } else fillDemo();
      return;
    }
    if (!given.has('as-of')) given.set('as-of', String(new Date().getFullYear()));
    params = given;
    writeForm(form, params);
    changed();
  }

  form.addEventListener('submit', (event) => event.preventDefault());
  form.addEventListener('input', (event) => {
    oneOfClue(event);
    clearTimeout(timer);
    timer = window.setTimeout(changed, WAIT);
  });
  form.addEventListener('click', (event) => {
    const button = event.target instanceof Element ? event.target.closest('button') : null;
    if (button === null || button.dataset.jump !== undefined) return;
    if (button.id === 'add-part') addAddition(form);
    else if (button.dataset.removePart !== undefined) removePart(form, Number(button.dataset.removePart));
    else if (button.id === 'blank') writeForm(form, new URLSearchParams());
    changed();
  });
  document.addEventListener('click', (event) => {
    const button = event.target instanceof Element ? event.target.closest<HTMLElement>('[data-jump]') : null;
    if (button !== null) jump(button.dataset.jump ?? '');
  });
  result.addEventListener('click', ({ target }) => {
    const button =
      target instanceof Element ? target.closest<HTMLElement>('[data-act], [data-stops], [data-tell]') : null;
    if (button?.dataset.tell !== undefined) {
      tellClue(form, button.dataset.tell);
      told = true;
    } else if (button?.dataset.stops !== undefined) foldStops(result, button.dataset.stops === 'open');
    else if (button !== null) press(button);
  });
  document.getElementById('print')?.addEventListener('click', () => window.print());
  openForPaper(result);
  window.addEventListener('hashchange', fromAddress);
  fromAddress();
}

/** Goes to a part of the page, and takes the keyboard along. The address is taken: it holds the inputs. */
function jump(id: string): void {
  const target = document.getElementById(id);
  take(target);
  target?.scrollIntoView();
}

/** Brings the keyboard to a part of the page that is no control. */
function take(target: HTMLElement | null): void {
  if (target === null) return;
  target.tabIndex = -1;
  target.focus({ preventScroll: true });
}

/** The lowest number that no part has yet. */
function freePart(numbers: number[]): number | null {
  for (let n = 2; n <= MOST_PARTS; n++) if (!numbers.includes(n)) return n;
  return null;
}

function addAddition(form: HTMLFormElement): void {
  const part = freePart(partNumbers(readForm(form)));
  if (part === null) return;
  const next = readForm(form);
  next.set(`name.${part}`, `addition ${part - 1}`);
  showAdditions(form, next);
  document.getElementById(`in-built-${part}`)?.focus();
}

function removePart(form: HTMLFormElement, part: number): void {
  form.querySelector(`[data-part="${part}"]`)?.remove();
  form.querySelector<HTMLButtonElement>('#add-part')?.focus();
}

const form = document.querySelector<HTMLFormElement>('#house');
const result = document.getElementById('plan');
if (form !== null && result !== null) start(form, result);
