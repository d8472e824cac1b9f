import { pathToFileURL } from 'node:url';
import { nearest } from '../../planner/house/words.ts';
import { HELP, USAGE } from './help.ts';
import { complain, endQuietlyOnClosedPipe, type Output, ProcessOutput } from './output.ts';
import { UsageError } from './usage-error.ts';

type Verb = (argv: readonly string[], output: Output) => Promise<void>;

/** Verbs are loaded when they are called, so that a look-up does not wait for the planner. */
const VERBS: Readonly<Record<string, () => Promise<Verb>>> = {
  plan: async () => (await import('./plan.ts')).plan,
  find: async () => (await import('./find.ts')).find,
  show: async () => (await import('./show.ts')).show,
  base: async () => (await import('./base.ts')).base,
  clues: async () => (await import('./clues.ts')).clues,
  place: async () => (await import('./place.ts')).place,
  date: async () => (await import('./date.ts')).date,
};

/** Runs one command; gives its exit code: 0 done, 1 a fault of ours, 2 something given can't be used. */
export async function main(argv: readonly string[]): Promise<number> {
  endQuietlyOnClosedPipe();
  const [name = '', ...rest] = argv;
  const output = new ProcessOutput();
  try {
    if (name === '--help' || name === '-h' || name === 'help') {
      await output.out(HELP[rest[0] ?? ''] ?? USAGE);
      return 0;
    }
    const load = Object.hasOwn(VERBS, name) ? VERBS[name] : undefined;
    if (load === undefined) throw new UsageError(unknownVerb(name));
    if (helpAsked(rest)) {
      await output.out(HELP[name] ?? USAGE);
      return 0;
    }
    const verb = await load();
    await verb(rest, output);
    output.end();
    return 0;
  } catch (error) {
    complain(error instanceof Error ? oneLine(error.message) : String(error));
    return error instanceof UsageError ? 2 : 1;
  }
}

function helpAsked(argv: readonly string[]): boolean {
  const end = argv.indexOf('--');
  return argv.slice(0, end < 0 ? undefined : end).some((word) => word === '--help' || word === '-h');
}

function unknownVerb(name: string): string {
  const names = Object.keys(VERBS);
  if (name === '') return `say what to do: ${names.join(', ')}; datestone --help explains`;
  const near = nearest(name, names);
  const suggestion = near === null ? '' : `; did you mean ${near}?`;
  return `there is no command ${JSON.stringify(name)}; use ${names.join(', ')}${suggestion}`;
}

function oneLine(message: string): string {
  return message.replace(/\s*\n\s*/g, ' ');
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href)
  process.exitCode = await main(process.argv.slice(2));
