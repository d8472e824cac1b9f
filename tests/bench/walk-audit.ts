import { Worth } from '../../planner/value/worth.ts';
import type { Choice } from '../../planner/walk/draft.ts';
import type { Problem } from '../../planner/walk/problem.ts';
import { Clock, type Slot } from '../../planner/walk/simulate.ts';

/** What is wrong with a walk, judged from its timetable alone: needs, waits, people in two places, walking time, the
 * minutes, the required scope, the worth that it claims. */
export function faults(problem: Problem, choice: Choice, minutes: number): string[] {
  const { tasks, geometry, team, block } = problem;
  const slots: Slot[] = [];
  new Clock(problem).run(choice.chosen, choice.owner, slots);
  const at = new Map(slots.map((s) => [s.task, s]));
  const wrong: string[] = [];
  const doing: Slot[][] = Array.from({ length: team }, () => []);
  for (const slot of slots) {
    const task = tasks[slot.task];
    if (task === undefined) continue;
    for (const need of task.needs) {
      const other = at.get(need);
      if (other === undefined || other.end > slot.start + 1e-6) wrong.push(`${task.id} before its need`);
    }
    for (const wait of task.waits) {
      const other = at.get(wait.after);
      if (other !== undefined && other.end + wait.minutes > slot.start + 1e-6)
        wrong.push(`${task.id} too soon`);
    }
    if (slot.end > minutes + 1e-6) wrong.push(`${task.id} ends after the visit`);
    const all = block[slot.task] === 'arrival' || block[slot.task] === 'closing';
    doing.forEach((own, w) => {
      if (all || w === slot.person) own.push(slot);
    });
  }
  for (const own of doing) {
    own.sort((a, b) => a.start - b.start);
    own.forEach((slot, k) => {
      const before = own[k - 1];
      const from = before?.stop ?? problem.door;
      const walk = geometry.minutes[from * geometry.stops.length + slot.stop] ?? 0;
      if (slot.start < (before?.end ?? 0) + walk - 1e-6) wrong.push('somebody is in two places');
    });
  }
  tasks.forEach((task, i) => {
    if (task.fixed && !at.has(i)) wrong.push(`${task.id} is required and left out`);
  });
  const worth = new Worth(problem.targets, tasks);
  for (const slot of slots) worth.add(slot.task);
  if (Math.abs(worth.total - choice.worth) > 1e-6) wrong.push('its worth is not what it claims');
  return wrong;
}
