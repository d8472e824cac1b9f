import type { SystemState } from '../belief/believe.ts';
import { presence } from '../condition/presence.ts';
import { percent } from './percent.ts';

/** The material whose odds moved most from one belief to another, in words; `little` where no odds move that can be told. */
export function movedMost(
  before: SystemState,
  after: SystemState,
  title: (id: string) => string,
  little: string,
): string {
  let moved = { id: 'none', was: 0, is: 0 };
  for (const id of after.kernels.ids) {
    if (id === 'none') continue;
    const was = presence(before, [id], 'anywhere');
    const is = presence(after, [id], 'anywhere');
    if (Math.abs(is - was) > Math.abs(moved.is - moved.was)) moved = { id, was, is };
  }
  const [was, is] = [percent(moved.was), percent(moved.is)];
  return was === is ? `moves ${little} little` : `moves ${title(moved.id)} from ${was} to ${is}`;
}
