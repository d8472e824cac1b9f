import { readFileSync } from 'node:fs';
import type { Base } from '../../knowledge/schema/base.ts';
import type { HouseInput } from '../../planner/house/house.ts';
import { planHouse, resolveHouse } from '../../planner/index.ts';
import type { Plan } from '../../planner/plan-types.ts';
import { loadBase } from '../knowledge/load.ts';
import {
  HOUSE_OPTIONS,
  type HouseOption,
  type HouseWords,
  houseFrom,
  isHouseOption,
} from './house-options.ts';
import { Options } from './options.ts';
import type { Output } from './output.ts';
import { planBatch } from './plan-batch.ts';
import { planText } from './plan-text.ts';
import { problemLine } from './problems.ts';
import { refusal, UsageError } from './usage-error.ts';
import { noWords } from './words.ts';

/** `datestone plan`: a plan for one house, or one a line for a batch of them. */
export async function plan(argv: readonly string[], output: Output): Promise<void> {
  const options = Options.read({ ...HOUSE_OPTIONS, house: 'one', json: 'flag', batch: 'one' }, argv);
  noWords('plan', options);
  const batch = options.one('batch');
  if (batch !== undefined) {
    const other = options.given.find((name) => name !== 'batch' && name !== 'as-of');
    if (other !== undefined)
      throw new UsageError(
        `--batch takes each house from its file, so --${other} can't stand beside it; make it a column`,
      );
    await planBatch(batch, yearToday(options), output);
    return;
  }
  if (options.given.length === 0)
    throw new UsageError(
      'plan needs a house: --built, --foundation and --place, or --house FILE, or --batch FILE',
    );
  const under = await houseFile(options.one('house'));
  const { base } = await loadBase((line) => output.warn(line));
  const made = planFor(base, houseFrom(wordsOf(options), under, new Date().getFullYear()));
  await output.out(options.has('json') ? `${JSON.stringify(made)}\n` : planText(base, made));
}

/** The plan for a house as it was described; what can't be used is told in one line. */
export function planFor(base: Base, input: HouseInput): Plan {
  const read = resolveHouse(base, input);
  if ('problems' in read) throw new UsageError(read.problems.map(problemLine).join('; '));
  return planHouse(base, read.house, input);
}

/** What was said of the house by options. */
export function wordsOf(options: Options): HouseWords {
  const words = new Map<HouseOption, string[]>();
  for (const name of options.given) if (isHouseOption(name)) words.set(name, options.many(name));
  return words;
}

/** The planner has no clock: this is where the year comes from. */
function yearToday(options: Options): string {
  return options.one('as-of') ?? String(new Date().getFullYear());
}

/** The house of a JSON file; one that says nothing where no file is given. */
export async function houseFile(path: string | undefined): Promise<HouseInput> {
  if (path === undefined) return { parts: [{}] };
  let text: string;
  try {
    text = readFileSync(path, 'utf8');
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    const why = code === 'ENOENT' ? 'there is no such file' : `it can't be read (${code})`;
    throw new UsageError(
      `${refusal('--house', path, 'the path of a JSON file (docs/house.schema.json)', null)}; ${why}`,
    );
  }
  const { readHouse } = await import('../house/read-house.ts');
  const read = readHouse(text);
  if ('house' in read) return read.house;
  const lines = read.problems.map((p) => refusal(p.option || 'the file', p.value, p.accepted, p.nearest));
  throw new UsageError(`--house ${JSON.stringify(path)}: ${lines.join('; ')}`);
}
