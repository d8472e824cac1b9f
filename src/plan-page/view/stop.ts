import type { WalkCheck, WalkStop } from '../../../planner/plan-types.ts';
import { fold, h, type Mark } from '../../markup/h.ts';
import { toEntry } from '../../site/link.ts';
import { SCOPE_WORDS } from '../../site/words.ts';
import type { OwnStop } from '../marks/arrange.ts';
import type { PlanWords } from '../words.ts';
import { clock, counted, duration } from './clock.ts';

/** A stop: one row that says when, where and how much, and opens to its gates and checks. Nobody can read a check
 * without passing its gates. Paper shows every stop open. */
export interface StopLook {
  number: number;
  /** More than one person walks. */
  team: boolean;
  /** The stop to go to now: it stands open. */
  now: boolean;
  /** What can be done with it; null where nothing can be pressed. */
  controls: Mark | null;
}

export function stopItem(own: OwnStop, words: PlanWords, look: StopLook): Mark {
  const { stop, start, done, tooEarly } = own;
  const shared = sharedGates(stop);
  return h(
    'li',
    { class: done ? 'stop stop-done' : 'stop' },
    h(
      'details',
      {
        class: 'stop-fold',
        'data-whole': true,
        'data-key': look.controls === null ? null : `stop-${own.key}`,
        open: look.now,
      },
      h(
        'summary',
        { class: 'stop-head' },
        h('span', { class: 'time' }, clock(start)),
        h(
          'span',
          { class: 'stop-name' },
          h('span', { class: 'stop-number' }, `${look.number}.`),
          h('h3', {}, stop.title),
        ),
        h('span', { class: 'stop-gist quiet small' }, gist(own, look.team)),
      ),
      tooEarly.length > 0 &&
        h(
          'p',
          { class: 'small' },
          h('strong', {}, 'Too early here: '),
          `${tooEarly.join('; ')} waits for a later stop.`,
        ),
      stop.today.map((say) => h('p', { class: 'small' }, h('strong', {}, 'Today: '), say)),
      stop.waits.map((w) => h('p', { class: 'small' }, `${duration(w.minutes)} of waiting here: ${w.why}.`)),
      shared.length > 0 && [
        h('p', { class: 'small gates-all' }, 'At this stop, throughout:'),
        gateList(shared),
      ],
      h(
        'ol',
        { class: 'stop-checks' },
        stop.checks.map((check) => checkItem(check, words, shared, look.controls === null)),
      ),
      look.controls,
    ),
  );
}

/** Minutes, who, how many checks and gates, and how the stop stands. */
function gist({ stop, done, pinned, aside, gone }: OwnStop, team: boolean): (Mark | string | false)[] {
  const gates = gatesOf(stop).length;
  const state = [
    done && 'done',
    pinned && 'pinned',
    aside && 'set aside but for what guards life',
    gone && 'the plan as it now is has no checks here',
  ].filter((word) => word !== false);
  return [
    `${Math.round(stop.minutes)} min${team ? `, person ${letterOf(stop)}` : ''}, ${counted(stop.checks.length, 'check')}`,
    gates > 0 && h('span', { class: 'gate-count' }, counted(gates, 'gate')),
    state.length > 0 && h('strong', {}, `, ${state.join(', ')}`),
  ];
}

export const letterOf = (stop: WalkStop): string => String.fromCharCode(64 + stop.person);

type Gate = WalkCheck['gate'][number];
const same = (a: Gate, b: Gate): boolean => a.stopIf === b.stopIf && a.do === b.do;

/** The gates of a stop, each once. */
export function gatesOf(stop: WalkStop): Gate[] {
  const all = stop.checks.flatMap((check) => check.gate);
  return all.filter((gate, i) => all.findIndex((g) => same(g, gate)) === i);
}

/** Gates that several checks of a stop have in common: said once, before the first of them. */
function sharedGates(stop: WalkStop): Gate[] {
  const all = stop.checks.flatMap((check) => check.gate);
  return gatesOf(stop).filter((gate) => all.filter((g) => same(g, gate)).length > 1);
}

function gateList(gates: Gate[]): Mark {
  return h(
    'ul',
    { class: 'gates' },
    gates.map((g) => h('li', {}, h('strong', {}, 'Stop if '), g.stopIf, ': ', g.do, '.')),
  );
}

/** What nobody may miss (gates, leave, waits) is always in sight; the rest opens. A lean view leaves to the check's own
 * page what stands there. */
function checkItem(check: WalkCheck, words: PlanWords, shared: Gate[], lean: boolean): Mark {
  const gates = check.gate.filter((gate) => !shared.some((g) => same(g, gate)));
  const reasons = check.for.map((id) => words.failures[id]?.title ?? id);
  const minutes = `${Math.round(check.minutes)} min${check.people > 1 ? ', two people' : ''}`;
  return h(
    'li',
    {},
    fold(
      { class: 'opens check', 'data-key': `check-${check.check}-${check.start}` },
      h(
        'summary',
        {},
        h('span', { class: 'check-name' }, check.title),
        h('span', { class: 'quiet small' }, minutes),
      ),
      () => [
        h('p', { class: 'small' }, words.checks[check.check]?.answer ?? ''),
        !lean && reasons.length > 0 && h('p', { class: 'small' }, `For: ${reasons.slice(0, 6).join('; ')}.`),
        !lean && check.tools.length > 0 && h('p', { class: 'small' }, `With: ${check.tools.join(', ')}.`),
        !lean && h('p', { class: 'small quiet' }, `Standing: ${SCOPE_WORDS[check.scope] ?? check.scope}.`),
        h(
          'p',
          {},
          h('a', { class: 'read-on', href: toEntry('checks', check.check) }, `Read on: ${check.title}`),
        ),
      ],
    ),
    gates.length > 0 && gateList(gates),
    check.permission !== null &&
      h(
        'p',
        { class: 'small leave' },
        h('strong', {}, `Leave of the ${check.permission.of}`),
        ` to ${check.permission.what}.`,
      ),
    check.waits.map((w) =>
      h('p', { class: 'small leave' }, h('strong', {}, `Wait ${w.minutes} minutes`), `: ${w.why}.`),
    ),
  );
}
