import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { datestone } from './run-datestone.ts';

const folder = mkdtempSync(join(tmpdir(), 'datestone-'));
const file = (name: string, text: string): string => {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
};

describe('bad input is told in one line on standard error, exit code 2, nothing on standard output', () => {
  const cases: { args: string[]; says: string[] }[] = [
    { args: [], says: ['plan, find, show, base, clues, place'] },
    { args: ['paln'], says: ['"paln"', 'did you mean plan?'] },
    { args: ['plan'], says: ['--built', '--house', '--batch'] },
    {
      args: ['plan', '--foundation', 'peers'],
      says: ['--foundation', '"peers"', 'posts', 'did you mean piers?'],
    },
    { args: ['plan', '--built', '19x3'], says: ['--built', '"19x3"', '1905-1915'] },
    { args: ['plan', '--built', '2950'], says: ['--built', '"2950"'] },
    { args: ['plan', '--place', 'ZZ', '--built', '1913'], says: ['--place', '"ZZ"', 'state code'] },
    { args: ['plan', '--place', '00000', '--built', '1913'], says: ['--place', '"00000"'] },
    { args: ['plan', '--minutes', 'long', '--built', '1913'], says: ['--minutes', '"long"', 'number'] },
    { args: ['plan', '--minutes', '1e9', '--built', '1913'], says: ['--minutes', '"1e9"'] },
    { args: ['plan', '--minutes', '-5', '--built', '1913'], says: ['--minutes', '"-5"'] },
    { args: ['plan', '--team', '9', '--built', '1913'], says: ['--team', '"9"', '1 to 4'] },
    { args: ['plan', '--units', '2.5', '--built', '1913'], says: ['--units', '"2.5"'] },
    { args: ['plan', '--fundation', 'piers'], says: ['"--fundation"', 'did you mean --foundation?'] },
    { args: ['plan', '--built'], says: ['--built', 'needs a value'] },
    { args: ['plan', '--built', '--json'], says: ['--built', 'needs a value'] },
    { args: ['plan', '--built', '1913', '--built', '1920'], says: ['--built', 'twice'] },
    { args: ['plan', '--json=yes'], says: ['--json', 'no value'] },
    { args: ['plan', '1913'], says: ['"1913"'] },
    { args: ['plan', '--built', '1913', '--clue', 'no-such-clue'], says: ['--clue', '"no-such-clue"'] },
    { args: ['plan', '--built', '1913', '--clue', 'rewired'], says: ['--clue', 'rewired=YEAR'] },
    { args: ['plan', '--built', '1913', '--clue', 'fuses-seen=1950'], says: ['fuses-seen without a year'] },
    {
      args: ['plan', '--built', '1913', '--as-of', '2026', '--clue', 'rewired=2030'],
      says: ['rewired=2030', '1600 to 2026'],
    },
    { args: ['plan', '--built', '1913', '--clue', 'rewired=98'], says: ['--clue', 'four digits'] },
    {
      args: ['plan', '--built', '1913', '--clue', 'fuses-seen#two'],
      says: ['--clue "fuses-seen#two"', 'ID#N', 'number of a dwelling'],
    },
    {
      args: ['plan', '--built', '1913', '--units', '3', '--clue', 'fuses-seen#4'],
      says: ['--clue "fuses-seen#4"', 'fuses-seen#1 to fuses-seen#3', 'has 3 dwellings'],
    },
    {
      args: ['plan', '--built', '1913', '--clue', 'fuses-seen#2'],
      says: ['--clue "fuses-seen#2"', 'how many dwellings', 'units'],
    },
    {
      args: ['plan', '--built', '1913', '--clue', 'fuses-seen@ell'],
      says: ['--clue "fuses-seen@ell"', 'fuses-seen@main block'],
    },
    {
      args: ['plan', '--built', '1913', '--client', 'childern'],
      says: ['--client', 'did you mean children?'],
    },
    { args: ['plan', '--house', join(folder, 'none.json')], says: ['--house', 'no such file'] },
    { args: ['plan', '--house', file('broken.json', '{"parts": [')], says: ['--house', 'JSON'] },
    {
      args: ['plan', '--house', file('typo.json', '{"parts":[{"bult":1913}]}')],
      says: ['"bult"', 'did you mean built?'],
    },
    {
      args: ['plan', '--house', file('word.json', '{"parts":[{"foundation":"peers"}]}')],
      says: ['parts.0.foundation', 'did you mean piers?'],
    },
    { args: ['plan', '--house', file('empty.json', '{"parts":[]}')], says: ['parts'] },
    { args: ['plan', '--batch', join(folder, 'none.csv')], says: ['--batch', 'no such file'] },
    { args: ['plan', '--batch', folder], says: ['--batch', 'folder'] },
    { args: ['plan', '--batch', file('empty.csv', '')], says: ['--batch', 'empty'] },
    {
      args: ['plan', '--batch', file('head.csv', 'built,fundation\n1913,piers\n')],
      says: ['"fundation"', 'did you mean foundation?'],
    },
    { args: ['plan', '--batch', 'x.csv', '--built', '1913'], says: ['--batch', '--built'] },
    { args: ['find'], says: ['find needs words'] },
    { args: ['find', '--limit', '0', 'roof'], says: ['--limit', '"0"'] },
    { args: ['show'], says: ['show needs one id'] },
    { args: ['show', 'knob-and-tub'], says: ['"knob-and-tub"', 'did you mean knob-and-tube'] },
    { args: ['clues', '--system', 'branch-wirring'], says: ['--system', 'did you mean branch-wiring?'] },
    { args: ['place'], says: ['place needs'] },
    { args: ['place', 'Kentuky'], says: ['--place', 'Kentuky'] },
    { args: ['base', 'extra'], says: ['"extra"'] },
  ];
  it.each(cases)('datestone $args', ({ args, says }) => {
    const { code, out, err } = datestone(args);
    expect(code).toBe(2);
    expect(out).toBe('');
    expect(err.endsWith('\n') && !err.trimEnd().includes('\n')).toBe(true);
    for (const words of says) expect(err).toContain(words);
  });
});

describe('help', () => {
  it.each([
    ['--help'],
    ['plan', '--help'],
    ['find', '--help'],
    ['show', '-h'],
    ['base', '--help'],
    ['clues', '--help'],
    ['place', '--help'],
  ])('datestone %s %s explains itself and exits 0', (...args) => {
    const { code, out, err } = datestone(args.filter((word) => word !== undefined));
    expect(code).toBe(0);
    expect(err).toBe('');
    expect(out).toMatch(/^datestone/);
    for (const line of out.split('\n')) expect(line.length).toBeLessThanOrEqual(118);
  });
});
