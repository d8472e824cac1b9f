import type { Plan, WalkStop } from '../../../planner/plan-types.ts';
import { walkLine } from '../../drawings/walk-line.ts';
import { fold, h, type Mark } from '../../markup/h.ts';
import { arrange } from '../marks/arrange.ts';
import { NO_MARKS, type WalkMarks } from '../marks/walk-marks.ts';
import type { PlanWords } from '../words.ts';
import { duration } from './clock.ts';
import { stopItem } from './stop.ts';
import { asideView, stopControls } from './stop-controls.ts';
import { walkTable } from './walk-table.ts';
import { walkTime } from './walk-time.ts';

/** The walk, stop by stop, on a line of time. Without marks there is nothing to press: so it stands as built. */
export function walkView(plan: Plan, words: PlanWords, marks: WalkMarks | null): (Mark | null)[] {
  const { walk } = plan;
  const own = arrange(walk.stops, marks ?? NO_MARKS);
  const shown = own.stops.map(({ stop, start }) => ({ ...stop, start }));
  const people = Math.max(1, ...shown.map((stop) => stop.person));
  const now = own.stops.find((one) => !one.done);
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
        'A row an hour; numbers as in the list. A triangle is a gate: read it before that check. A ring is a check that waited for another, a broken line is standing idle. Gaps are the way between.',
        people > 1 && ` ${[...'ABCD'].slice(0, people).join(', ')}: who walks.`,
      ),
    ),
    marks === null
      ? null
      : fold({ 'data-key': 'walk-table' }, h('summary', {}, 'The same as a table'), () =>
          walkTable(shown, people > 1),
        ),
    walk.tools.length > 0
      ? fold(
          { 'data-key': 'tools', 'data-whole': true },
          h('summary', {}, `To pack: ${walk.tools.length} things`),
          () =>
            h(
              'ul',
              { class: 'columns' },
              walk.tools.map((tool) => h('li', {}, tool)),
            ),
        )
      : null,
    marks === null ? null : walkTime(walk),
    marks === null
      ? null
      : h(
          'p',
          { class: 'all-stops screen-only' },
          h('button', { type: 'button', class: 'small-action', 'data-stops': 'open' }, 'Open all stops'),
          h('button', { type: 'button', class: 'small-action', 'data-stops': 'close' }, 'Fold all'),
        ),
    h(
      'ol',
      { class: 'walk' },
      own.stops.map((one, i) =>
        stopItem(one, words, {
          number: i + 1,
          team: people > 1,
          now: one === now,
          controls: marks && stopControls(one, i === 0, i === own.stops.length - 1),
        }),
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

/** The drawing in words; the table and the list say the rest. */
function walkInWords(stops: WalkStop[], people: number): string {
  const end = Math.max(0, ...stops.map((stop) => stop.start + stop.minutes));
  return `The walk as a line of time: ${stops.length} stops in ${duration(end)}, ${people === 1 ? 'one person' : `${people} people`}.`;
}
