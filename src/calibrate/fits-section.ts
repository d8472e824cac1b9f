import type { Base } from '../../knowledge/schema/base.ts';
import type { Fit } from '../../knowledge/schema/fit.ts';

/** Which fits stand in the base, and what each was made from. */
export function fitsSection(base: Base): string[] {
  return [
    '## What stands on what',
    '',
    '| system | holds in | rows fitted | data | script |',
    '| --- | --- | --: | --- | --- |',
    ...base.fits.map(
      (f) => `| ${f.system} | ${whereIn(base, f)} | ${f.made.rows} | ${f.made.data} | ${f.made.script} |`,
    ),
  ];
}

function whereIn(base: Base, { system, states }: Fit): string {
  if (states !== null) return states.join(', ');
  return base.fits.some((f) => f.system === system && f.states !== null) ? 'everywhere else' : 'everywhere';
}
