/** The worked example of the README: parts of what `datestone plan` prints, cut where "..." stands. */
export const EXAMPLE_ARGS = 'plan --built 1913 --foundation piers --place KY --as-of 2026'.split(' ');

/** Cuts the example from the whole text of a plan. The hash of the base is left out: it changes with every entry. */
export function cutExample(text: string): string {
  const lines = text.split('\n').map((line) => line.trimEnd());
  const held = items(lines, 'WHAT IT IS LIKELY TO HOLD').filter((item) =>
    ['- Branch wiring', '- Foundation', '- Water supply piping'].some((start) => item[0]?.startsWith(start)),
  );
  const walk = lines.filter((line) => /^\d:\d\d {2}/.test(line));
  return [
    lines[0] ?? '',
    '...',
    'WHAT IT IS LIKELY TO HOLD',
    ...held.flat(),
    '...',
    'WHAT MATTERS MOST',
    ...items(lines, 'WHAT MATTERS MOST').slice(0, 6).flat(),
    '...',
    lines.find((line) => line.startsWith('THE WALK')) ?? '',
    ...walk,
    '...',
    'ASK',
    ...items(lines, 'ASK').slice(0, 3).flat(),
  ].join('\n');
}

/** The items of a section, each with the lines it runs over. */
function items(lines: string[], heading: string): string[][] {
  const from = lines.indexOf(heading) + 1;
  const to = lines.indexOf('', from);
  const found: string[][] = [];
  for (const line of lines.slice(from, to < 0 ? undefined : to))
    if (line.startsWith('- ')) found.push([line]);
    else found.at(-1)?.push(line);
  return found;
}

const PLACE = /(<!-- example: begin -->\n)[\s\S]*?(<!-- example: end -->)/;

/** The README with the example in its place. */
export function withExample(readme: string, example: string): string {
  return readme.replace(
    PLACE,
    (_, begin: string, end: string) => `${begin}\`\`\`\n${example}\n\`\`\`\n${end}`,
  );
}
