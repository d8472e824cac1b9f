import type { Plan, WalkCheck, WalkStop } from '../../../planner/plan-types.ts';
import { walkLine } from '../../drawings/walk-line.ts';
import { h, type Mark } from '../../markup/h.ts';
import { toEntry } from '../../site/link.ts';
import { SCOPE_WORDS } from '../../site/words.ts';
import { arrange, type OwnStop } from '../marks/arrange.ts';
import { NO_MARKS, type WalkMarks } from '../marks/walk-marks.ts';
import type { PlanWords } from '../words.ts';
import { clock, duration } from './clock.ts';
import { asideView, stopControls } from './stop-controls.ts';

/** The walk, stop by stop, on a line of time. Without marks there is nothing to press: so it stands as built. */
export function walkView(plan: Plan, words: PlanWords, marks: WalkMarks | null): (Mark | null)[] {
  const { walk } = plan;
  const own = arrange(walk.stops, marks ?? NO_MARKS);
  const shown = own.stops.map(({ stop, start }) => ({ ...stop, start }));
  const people = Math.max(1, ...shown.map((stop) => stop.person));
  return [
    h(
      'p',
      {},
      walk.feasible
        ? `Uses ${duration(walk.minutesUsed)} of ${duration(walk.minutes)}. What is always done takes ${duration(walk.minutesNeeded)}. `
        : `What is always done takes ${duration(walk.minutesNeeded)}; ${duration(walk.minutes)} were given. `,
      own.changed
        ? 'Your order: times are only added up, and waits are not planned anew.'
        : 'Times count from arrival.',
    ),
    h(
      'figure',
      { class: 'drawing' },
      walkLine({ ...walk, stops: shown }, people, walkInWords(shown, people)),
      h(
        'figcaption',
        {},
        'A row an hour; numbers as in the list. A triangle is a gate: read it before that check. A ring is a check that waited for another. Gaps are the way between, or waiting.',
        people > 1 && ` ${[...'ABCD'].slice(0, people).join(', ')}: who walks.`,
      ),
    ),
    walk.tools.length > 0
      ? h(
          'details',
          { 'data-key': 'tools' },
          h('summary', {}, `To pack: ${walk.tools.length} things`),
          h(
            'ul',
            { class: 'columns' },
            walk.tools.map((tool) => h('li', {}, tool)),
          ),
        )
      : null,
    h(
      'ol',
      { class: 'walk' },
      own.stops.map((one, i) =>
        stopItem(
          one,
          i + 1,
          words,
          people > 1,
          marks && stopControls(one, i === 0, i === own.stops.length - 1),
        ),
      ),
    ),
    asideView(marks?.aside ?? []),
  ];
}

/** The plan refuses to shave the house: it says how long the visit must be. */
export function tooShort(plan: Plan): Mark {
  const { walk } = plan;
  return h(
    'div',
    { class: 'caution', role: 'note' },
    h(
      'p',
      { class: 'caution-title' },
      `${duration(walk.minutes)} is too short for this house: it needs ${duration(walk.minutesNeeded)}`,
    ),
    h(
      'p',
      {},
      'The usual scope and the checks that guard life do not fit. They are not shortened to fit: ask for more time, bring a partner, or agree in writing on a second visit.',
    ),
  );
}

/** The drawing in words; the list below it says the rest. */
function walkInWords(stops: WalkStop[], people: number): string {
  const end = Math.max(0, ...stops.map((stop) => stop.start + stop.minutes));
  return `The walk as a line of time: ${stops.length} stops in ${duration(end)}, ${people === 1 ? 'one person' : `${people} people`}.`;
}

function stopItem(
  own: OwnStop,
  number: number,
  words: PlanWords,
  team: boolean,
  controls: Mark | null,
): Mark {
  const { stop, start, done, pinned, aside, gone, tooEarly } = own;
  const shared = sharedGates(stop);
  const state = [
    done && 'done',
    pinned && 'pinned',
    aside && 'set aside but for what guards life',
    gone && 'the plan as it now is has no checks here',
  ].filter((word) => word !== false);
  return h(
    'li',
    { class: done ? 'stop stop-done' : 'stop' },
    h(
      'div',
      { class: 'stop-head' },
      h('span', { class: 'time' }, clock(start)),
      h('span', { class: 'stop-number' }, `${number}.`),
      h('h3', {}, stop.title),
      h(
        'span',
        { class: 'quiet small' },
        `${duration(stop.minutes)}${team ? `, person ${String.fromCharCode(64 + stop.person)}` : ''}`,
        state.length > 0 && h('strong', {}, `, ${state.join(', ')}`),
      ),
    ),
    controls,
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
      stop.checks.map((check) => checkItem(check, words, shared)),
    ),
  );
}

type Gate = WalkCheck['gate'][number];
const same = (a: Gate, b: Gate): boolean => a.stopIf === b.stopIf && a.do === b.do;

/** Gates that several checks of a stop have in common: said once, before the first of them. */
function sharedGates(stop: WalkStop): Gate[] {
  const all = stop.checks.flatMap((check) => check.gate);
  return all.filter(
    (gate, i) => all.findIndex((g) => same(g, gate)) === i && all.filter((g) => same(g, gate)).length > 1,
  );
}

function gateList(gates: Gate[]): Mark {
  return h(
    'ul',
    { class: 'gates' },
    gates.map((g) => h('li', {}, h('strong', {}, 'Stop if '), g.stopIf, ': ', g.do, '.')),
  );
}

/** What nobody may miss (gates, leave, waits) is always in sight; the rest opens. */
function checkItem(check: WalkCheck, words: PlanWords, shared: Gate[]): Mark {
  const gates = check.gate.filter((gate) => !shared.some((g) => same(g, gate)));
  const reasons = check.for.map((id) => words.failures[id]?.title ?? id);
  const minutes = `${Math.round(check.minutes)} min${check.people > 1 ? ', two people' : ''}`;
  return h(
    'li',
    {},
    h(
      'details',
      { class: 'opens check', 'data-key': `check-${check.check}-${check.start}` },
      h(
        'summary',
        {},
        h('span', { class: 'check-name' }, check.title),
        h('span', { class: 'quiet small' }, minutes),
      ),
      h('p', { class: 'small' }, words.checks[check.check]?.answer ?? ''),
      reasons.length > 0 && h('p', { class: 'small' }, `For: ${reasons.slice(0, 6).join('; ')}.`),
      check.tools.length > 0 && h('p', { class: 'small' }, `With: ${check.tools.join(', ')}.`),
      h('p', { class: 'small quiet' }, `Standing: ${SCOPE_WORDS[check.scope] ?? check.scope}.`),
      h(
        'p',
        {},
        h('a', { class: 'read-on', href: toEntry('checks', check.check) }, `Read on: ${check.title}`),
      ),
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
