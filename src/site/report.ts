/** A page of plain Markdown as blocks: headings of the second rank make sections; paragraphs, lists and tables stand in
 * them. Only what the fitting writes is understood. */
export interface ReportSection {
  /** Null for what stands before the first heading. */
  title: string | null;
  blocks: ReportBlock[];
}

export type ReportBlock =
  | { kind: 'paragraph'; text: string }
  | { kind: 'subtitle'; text: string }
  | { kind: 'list'; items: string[] }
  | { kind: 'table'; head: string[]; right: boolean[]; rows: string[][] };

export function readReport(text: string): ReportSection[] {
  const sections: ReportSection[] = [{ title: null, blocks: [] }];
  for (const block of text.split(/\n\s*\n/).flatMap(withoutHeading)) {
    if (block.startsWith('# ') || block.startsWith('Made by')) continue;
    if (block.startsWith('## ')) sections.push({ title: plain(block.slice(3)), blocks: [] });
    else sections.at(-1)?.blocks.push(blockOf(block));
  }
  return sections.filter((s) => s.blocks.length > 0);
}

/** A heading may stand right over its text. */
function withoutHeading(block: string): string[] {
  const trimmed = block.trim();
  const match = /^(#{1,3} [^\n]*)\n([\s\S]+)$/.exec(trimmed);
  return match === null
    ? trimmed === ''
      ? []
      : [trimmed]
    : [match[1] ?? '', ...withoutHeading(match[2] ?? '')];
}

function blockOf(block: string): ReportBlock {
  if (block.startsWith('### ')) return { kind: 'subtitle', text: plain(block.slice(4)) };
  if (block.startsWith('|')) return tableOf(block);
  if (block.startsWith('- '))
    return { kind: 'list', items: block.split(/\n(?=- )/).map((item) => plain(item.slice(2))) };
  return { kind: 'paragraph', text: plain(block) };
}

function tableOf(block: string): ReportBlock {
  const [head = [], rule = [], ...rows] = block.split('\n').map(cellsOf);
  return {
    kind: 'table',
    head,
    right: rule.map((cell) => cell.endsWith(':')),
    rows,
  };
}

const cellsOf = (line: string): string[] =>
  line
    .trim()
    .replace(/^\||\|$/g, '')
    .split('|')
    .map((cell) => plain(cell));

const plain = (text: string): string =>
  text
    .trim()
    .replace(/\s*\n\s*/g, ' ')
    .replace(/\*\*?|`/g, '');
