import type { Clue } from '../../knowledge/schema/clue.ts';
import { notMet } from '../../planner/belief/not-met.ts';
import { nearest } from '../../planner/house/words.ts';
import { loadBase } from '../knowledge/load.ts';
import { Options } from './options.ts';
import type { Output } from './output.ts';
import { refusal, UsageError } from './usage-error.ts';
import { noWords, wrap } from './words.ts';

/** `datestone clues`: what can be told of a house, by system. */
export async function clues(argv: readonly string[], output: Output): Promise<void> {
  const options = Options.read({ system: 'one', json: 'flag' }, argv);
  noWords('clues', options);
  const { base } = await loadBase((line) => output.warn(line));
  const wanted = options.one('system');
  const systems = base.systems.map((s) => s.id);
  if (wanted !== undefined && !systems.includes(wanted))
    throw new UsageError(refusal('--system', wanted, 'the id of a system', nearest(wanted, systems)));
  const chosen = base.clues.filter((clue) => wanted === undefined || clue.system === wanted);
  if (options.has('json')) {
    await output.out(`${JSON.stringify({ clues: chosen.map(shortOf) })}\n`);
    return;
  }
  const lines = base.systems.flatMap((system) => {
    const of = chosen.filter((clue) => clue.system === system.id);
    return of.length === 0 ? [] : [system.title, ...of.flatMap(linesOf), ''];
  });
  await output.out(`${lines.join('\n')}\n`);
}

function shortOf(clue: Clue): object {
  const { id, say, system, where, dated } = clue;
  return { id, say, system, where, dated: dated?.kind ?? null, missable: notMet(clue) !== null };
}

function linesOf(clue: Clue): string[] {
  const id = clue.dated === undefined ? clue.id : `${clue.id}=YEAR`;
  return wrap(clue.say, 100, `  ${id.padEnd(32)} `, ' '.repeat(35));
}
