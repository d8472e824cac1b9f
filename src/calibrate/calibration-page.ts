/** docs/calibration.md: a head and sections, each under a heading of the second level. */
const HEAD = ['# Calibration', '', 'Made by `npm run calibrate -- FOLDER`; do not edit by hand.', ''];

/** The page with the given sections put in the place of those of the same heading, new ones after them in the order
 * given; sections that are not given stay as they are. A section's first line is its heading. */
export function withSections(page: string, given: string[][]): string {
  const sections = sectionsOf(page);
  for (const lines of given) sections.set(lines[0] ?? '', lines);
  return `${[...HEAD, ...[...sections].flatMap(([, lines]) => [...trimmed(lines), ''])].join('\n')}`;
}

/** Sections by heading, in their order on the page. */
export function sectionsOf(page: string): Map<string, string[]> {
  const sections = new Map<string, string[]>();
  let open: string[] | null = null;
  for (const line of page.split('\n')) {
    if (line.startsWith('## ')) {
      open = [];
      sections.set(line, open);
    }
    open?.push(line);
  }
  return sections;
}

/** How often `what` will have been scored, this time included. Each scoring of kept-out data is counted on the page: a
 * split that is looked at often becomes training data. Write the count with `scoredSentence`. */
export function nextScoring(page: string, what: string): number {
  const plain = page.replace(/\s+/g, ' ');
  const sentence = new RegExp(
    `${what.replace(/[.*+?^$()|[\]\\{}]/g, '\\$&')} have been scored (\\d+) times?`,
  );
  return Number(sentence.exec(plain)?.[1] ?? 0) + 1;
}

export function scoredSentence(what: string, count: number): string {
  return `${what} have been scored ${count} time${count === 1 ? '' : 's'}.`;
}

function trimmed(lines: string[]): string[] {
  const last = lines.findLastIndex((line) => line !== '');
  return lines.slice(0, last + 1);
}
