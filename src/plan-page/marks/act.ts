import type { WalkStop } from '../../../planner/plan-types.ts';
import { arrange } from './arrange.ts';
import type { WalkMarks } from './walk-marks.ts';

export const ACTS = ['done', 'earlier', 'later', 'pin', 'aside', 'back'] as const;
export type Act = (typeof ACTS)[number];

export const isAct = (word: string): word is Act => ACTS.some((act) => act === word);

/** What a press of a stop's button makes of the marks, and what to say of it. */
export function act(
  planned: readonly WalkStop[],
  marks: WalkMarks,
  what: Act,
  key: string,
): { marks: WalkMarks; say: string } {
  const { stops } = arrange(planned, marks);
  const at = stops.findIndex((s) => s.key === key);
  const stop = stops[at]?.stop;
  const title = stop?.title ?? marks.aside.find((s) => s.key === key)?.title ?? key;
  const kept = { key, title, checks: (stop?.checks ?? []).map((c) => ({ id: c.check, title: c.title })) };
  const without = <T extends { key: string }>(list: T[]): T[] => list.filter((one) => one.key !== key);
  const toggled = (list: string[]): string[] =>
    list.includes(key) ? list.filter((one) => one !== key) : [...list, key];
  switch (what) {
    case 'done': {
      const done = toggled(marks.done);
      return { marks: { ...marks, done }, say: `${title}: ${done.includes(key) ? 'done' : 'not done yet'}.` };
    }
    case 'aside':
      return {
        marks: { ...marks, aside: [...without(marks.aside), kept], pinned: without(marks.pinned) },
        say: `${title} is set aside; it stands below the walk. What guards life stays in.`,
      };
    case 'back':
      return {
        marks: { ...marks, aside: without(marks.aside) },
        say: `${title} may come back into the walk.`,
      };
    case 'pin': {
      const pinned = without(marks.pinned);
      if (pinned.length < marks.pinned.length)
        return { marks: { ...marks, pinned }, say: `${title} is no longer pinned.` };
      return {
        marks: { ...marks, pinned: [...pinned, { ...kept, at }] },
        say: `${title} is pinned as stop ${at + 1}.`,
      };
    }
    case 'earlier':
    case 'later': {
      const to = at + (what === 'earlier' ? -1 : 1);
      const other = stops[to];
      if (at === -1 || other === undefined) return { marks, say: `${title} is already at the end.` };
      const order = stops.map((s) => s.key);
      order[at] = other.key;
      order[to] = key;
      // A pin is a place in the order, so it goes along.
      const pinned = marks.pinned.map((p) =>
        p.key === key ? { ...p, at: to } : p.key === other.key ? { ...p, at } : p,
      );
      return {
        marks: { ...marks, order, pinned },
        say: `${title} is now stop ${to + 1}.`,
      };
    }
  }
}
