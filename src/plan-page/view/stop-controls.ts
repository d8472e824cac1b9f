import { h, type Mark } from '../../markup/h.ts';
import type { Act } from '../marks/act.ts';
import type { OwnStop } from '../marks/arrange.ts';
import type { KeptStop } from '../marks/walk-marks.ts';

/** What can be done with a stop: one thing in sight, the rest behind it. */
export function stopControls(own: OwnStop, first: boolean, last: boolean): Mark {
  const { key, done, pinned } = own;
  return h(
    'div',
    { class: 'stop-controls screen-only' },
    press('done', key, done ? 'Not done yet' : 'Done', done),
    h(
      'details',
      { class: 'stop-more', 'data-key': `change-${key}` },
      h('summary', {}, 'Change'),
      h(
        'div',
        { class: 'stop-acts' },
        press('earlier', key, 'Earlier', undefined, first),
        press('later', key, 'Later', undefined, last),
        press('pin', key, pinned ? 'Unpin' : 'Pin here', pinned),
        own.aside ? press('back', key, 'Bring back') : press('aside', key, 'Set aside'),
      ),
    ),
  );
}

/** Stops that the person set aside: nothing is lost, and the record still has to say why. */
export function asideView(aside: KeptStop[]): Mark | null {
  if (aside.length === 0) return null;
  return h(
    'section',
    { class: 'aside-stops', 'aria-label': 'Set aside' },
    h('h3', {}, 'Set aside by you'),
    h(
      'p',
      { class: 'small' },
      'Not walked is not seen: say in the record what was left, and why. Checks that guard life stay in the walk.',
    ),
    h(
      'ul',
      { class: 'bare' },
      aside.map(({ key, title, checks }) =>
        h(
          'li',
          {},
          h('strong', {}, title),
          `: ${checks.map((c) => c.title).join('; ')}`,
          ' ',
          press('back', key, 'Bring back'),
        ),
      ),
    ),
  );
}

function press(act: Act, key: string, words: string, pressed?: boolean, off = false): Mark {
  return h(
    'button',
    {
      type: 'button',
      class: 'small-action',
      'data-act': act,
      'data-stop': key,
      'aria-pressed': pressed === undefined ? null : String(pressed),
      disabled: off,
    },
    words,
  );
}
