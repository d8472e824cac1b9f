import type { Base } from '../../knowledge/schema/base.ts';
import type { Reliability } from './reliability.ts';

export interface SystemReliability extends Reliability {
  system: string;
  title: string;
}

/** What was forecast against what came true, bin by bin, and what was never put to the test. */
export function reliabilitySection(base: Base, systems: readonly SystemReliability[]): string[] {
  const tested = new Set(systems.map((s) => s.system));
  const untested = base.systems.filter((s) => !tested.has(s.id)).map((s) => s.title.toLowerCase());
  return [
    '## Reliability in Ames',
    '',
    'Of the kept-out rows, in ten bins of equal count by what was forecast: the mean forecast, and how often it came true,',
    'with the 95% interval of Wilson. A system with two classes counts one of them, the others count every class. The',
    'calibration error is the mean distance between forecast and share over the bins; a perfect forecast has some, by',
    'chance alone.',
    '',
    '| system | calibration error |',
    '| --- | --: |',
    ...systems.map((s) => `| ${s.title} | ${s.error.toFixed(3)} |`),
    '',
    '| system | bin | forecasts | forecast | came true | interval |',
    '| --- | --: | --: | --: | --: | --- |',
    ...systems.flatMap((s) =>
      s.bins.map((b, i) => {
        const off = b.forecast < b.low || b.forecast > b.high ? ', forecast outside' : '';
        return `| ${s.title} | ${i + 1} | ${b.n} | ${b.forecast.toFixed(3)} | ${b.observed.toFixed(3)} | ${b.low.toFixed(3)} to ${b.high.toFixed(3)}${off} |`;
      }),
    ),
    '',
    `Tested here: ${systems.map((s) => s.title.toLowerCase()).join(', ')}; one place, Ames in Iowa. Not tested here:`,
    `${untested.join(', ')}; every other place; and the hidden portion of every system, which no record tells.`,
  ];
}
