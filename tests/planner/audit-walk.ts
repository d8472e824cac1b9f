import type { House } from '../../planner/house/house.ts';
import type { Plan, Walk, WalkCheck } from '../../planner/plan-types.ts';
import { base } from './any-house.ts';

/** Everything a walk must honour, checked from its output alone. Returns what is broken, in words. */
export function auditWalk(plan: Plan, house: House): string[] {
  const { walk } = plan;
  const broken: string[] = [];
  const done = slotsOf(walk);
  const byCheck = new Map<string, Slot[]>();
  for (const slot of done) byCheck.set(slot.check, [...(byCheck.get(slot.check) ?? []), slot]);

  for (const slot of done) {
    const check = base.checks.find((c) => c.id === slot.check);
    if (check === undefined) {
      broken.push(`${slot.check} is no check`);
      continue;
    }
    for (const need of check.needs)
      for (const other of byCheck.get(need) ?? [])
        if (other.end > slot.start + 0.11) broken.push(`${slot.check} starts before its need ${need} ends`);
    for (const wait of check.waits)
      for (const other of byCheck.get(wait.after) ?? [])
        if (other.end + wait.minutes > slot.start + 0.11)
          broken.push(`${slot.check} does not wait ${wait.minutes} minutes after ${wait.after}`);
    if (JSON.stringify(slot.row.gate) !== JSON.stringify(check.gate))
      broken.push(`${slot.check} lost its gate`);
    if ((check.permission ?? null)?.what !== slot.row.permission?.what)
      broken.push(`${slot.check} lost its permission`);
    if (check.people === 2 && house.visit.team < 2) broken.push(`${slot.check} takes two people`);
    if (slot.person < 1 || slot.person > house.visit.team)
      broken.push(`person ${slot.person} is not in the team`);
  }
  for (let person = 1; person <= house.visit.team; person++) {
    const own = done.filter((s) => s.person === person).sort((a, b) => a.start - b.start);
    own.forEach((slot, i) => {
      const next = own[i + 1];
      if (next !== undefined && slot.end > next.start + 0.11)
        broken.push(`person ${person} does ${slot.check} and ${next.check} at once`);
    });
  }
  for (const [check, slots] of byCheck)
    if (slots.length > 1) broken.push(`${check} is done ${slots.length} times`);
  if (walk.feasible !== walk.minutesNeeded <= walk.minutes)
    broken.push('feasible disagrees with the minutes needed');
  if (walk.feasible && walk.minutesUsed > walk.minutes)
    broken.push(`uses ${walk.minutesUsed} of ${walk.minutes} minutes`);
  if (done.some((s) => s.end > walk.minutesUsed + 0.11)) broken.push('a check ends after the walk');
  const left = new Set(walk.leftOut.filter((l) => l.why.startsWith('the minutes')).map((l) => l.check));
  for (const check of base.checks)
    if (check.scope !== 'optional' && left.has(check.id))
      broken.push(`${check.id} is ${check.scope} and left out`);
  if (walk.worth > walk.bound + 1e-3) broken.push(`worth ${walk.worth} is above its bound ${walk.bound}`);
  const last = [...done].sort((a, b) => b.end - a.end)[0];
  if (last !== undefined && byCheck.has('closing-talk') && last.check !== 'closing-talk')
    broken.push(`ends with ${last.check}, not with the closing talk`);
  return broken;
}

interface Slot {
  check: string;
  person: number;
  start: number;
  end: number;
  row: WalkCheck;
}

function slotsOf(walk: Walk): Slot[] {
  return walk.stops.flatMap((stop) =>
    stop.checks.map((row) => ({
      check: row.check,
      person: stop.person,
      start: row.start,
      end: row.start + row.minutes,
      row,
    })),
  );
}
