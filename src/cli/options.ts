import { nearest } from '../../planner/house/words.ts';
import { refusal, UsageError } from './usage-error.ts';

/** What a verb's options take: `flag` stands alone, `one` takes a value, `many` may be repeated. */
export type OptionKinds = Readonly<Record<string, 'flag' | 'one' | 'many'>>;

export class Options {
  readonly words: string[] = [];
  readonly #values = new Map<string, string[]>();
  readonly #flags = new Set<string>();

  has(flag: string): boolean {
    return this.#flags.has(flag);
  }

  one(name: string): string | undefined {
    return this.#values.get(name)?.at(-1);
  }

  many(name: string): string[] {
    return this.#values.get(name) ?? [];
  }

  /** Names of all options given with a value. */
  get given(): string[] {
    return [...this.#values.keys()];
  }

  /** Reads the words after the verb. `--name value` and `--name=value`; after `--` all is words. */
  static read(kinds: OptionKinds, argv: readonly string[]): Options {
    const options = new Options();
    const rest = [...argv];
    for (let word = rest.shift(); word !== undefined; word = rest.shift()) {
      if (word === '--') {
        options.words.push(...rest);
        break;
      }
      if (word === '-h') word = '--help';
      if (!word.startsWith('--')) {
        if (/^-[a-z]/i.test(word)) throw new UsageError(unknown(word, kinds));
        options.words.push(word);
        continue;
      }
      const at = word.indexOf('=');
      const name = word.slice(2, at < 0 ? undefined : at);
      const kind = Object.hasOwn(kinds, name) ? kinds[name] : undefined;
      if (name === 'help' || kind === 'flag') {
        if (at >= 0) throw new UsageError(`--${name} takes no value, but "${word.slice(at + 1)}" was given`);
        options.#flags.add(name);
      } else if (kind === undefined)
        throw new UsageError(unknown(word.slice(0, at < 0 ? undefined : at), kinds));
      else options.#add(name, kind, at < 0 ? rest.shift() : word.slice(at + 1));
    }
    return options;
  }

  #add(name: string, kind: 'one' | 'many', value: string | undefined): void {
    // `--outdoor -5` is a value; `--built --json` is a value forgotten.
    if (value === undefined || value.startsWith('--'))
      throw new UsageError(`--${name} needs a value after it`);
    if (kind === 'one' && this.#values.has(name))
      throw new UsageError(`--${name} is given twice ("${this.one(name)}" and "${value}"); give it once`);
    this.#values.set(name, [...this.many(name), value]);
  }
}

function unknown(word: string, kinds: OptionKinds): string {
  const names = [...Object.keys(kinds), 'help'];
  const near = nearest(word.replace(/^-+/, ''), names);
  const suggestion = near === null ? '' : `; did you mean --${near}?`;
  return `there is no option ${JSON.stringify(word)}; use ${names.map((name) => `--${name}`).join(', ')}${suggestion}`;
}

/** A number as it was typed: digits with an optional sign and point, nothing else. */
export function readNumber(option: string, text: string, accepted: string): number {
  if (!/^[+-]?\d+(\.\d+)?$/.test(text.trim())) throw new UsageError(refusal(option, text, accepted, null));
  return Number(text);
}
