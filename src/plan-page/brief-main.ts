import { show } from '../markup/dom.ts';
import { to } from '../site/link.ts';
import { DEMO } from './demo.ts';
import { PlanEngine } from './engine.ts';
import { problemInWords, readParams } from './params.ts';
import type { PlanAnswer } from './protocol.ts';
import { briefView } from './view/brief.ts';

/** The buyer's briefing from the same address as the plan. */
function start(result: HTMLElement): void {
  const status = document.getElementById('status');
  const back = document.querySelector<HTMLAnchorElement>('#plan-link');
  const note = document.getElementById('demo-note');
  const own = document.getElementById('own-note');
  const engine = new PlanEngine(to('/base.json'), receive);

  function receive(answer: PlanAnswer): void {
    result.removeAttribute('aria-busy');
    if (answer.kind === 'plan') {
      show(result, briefView(answer.plan, answer.words));
      say('');
    } else if (answer.kind === 'problems')
      say(
        `${answer.problems.map((p) => problemInWords(p, p.value)).join(' ')} Go back to the plan and mend it.`,
      );
    else say(`No briefing could be made: ${answer.message}. Reload the page to try again.`);
  }

  function say(words: string): void {
    if (status !== null) status.textContent = words;
  }

  function fromAddress(): void {
    const given = location.hash.length > 1 ? location.hash.slice(1) : location.search.slice(1);
    if (note !== null) note.hidden = given !== '';
    if (own !== null) own.hidden = given === '';
    if (back !== null) back.href = `${to('/plan/')}${given === '' ? '' : `#${given}`}`;
    const params = new URLSearchParams(given === '' ? DEMO : given);
    if (!params.has('as-of')) params.set('as-of', String(new Date().getFullYear()));
    result.setAttribute('aria-busy', 'true');
    engine.ask(readParams(params));
  }

  document.getElementById('print')?.addEventListener('click', () => window.print());
  window.addEventListener('hashchange', fromAddress);
  if (location.hash.length > 1 || location.search !== '') fromAddress();
}

const result = document.getElementById('brief');
if (result !== null) start(result);
