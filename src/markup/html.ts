import { attributes, type Mark } from './h.ts';

const VOID = new Set(['br', 'hr', 'img', 'input', 'link', 'meta', 'wbr']);

/** A mark as HTML text, for pages made at build. */
export function toHtml(mark: Mark | string): string {
  if (typeof mark === 'string') return escapeText(mark);
  const attrs = attributes(mark)
    .map(([name, value]) => (value === '' ? ` ${name}` : ` ${name}="${escapeText(value)}"`))
    .join('');
  if (VOID.has(mark.tag)) return `<${mark.tag}${attrs}>`;
  const children = [...mark.children, ...(mark.later?.() ?? [])];
  return `<${mark.tag}${attrs}>${children.map(toHtml).join('')}</${mark.tag}>`;
}

export function escapeText(text: string): string {
  return text
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;');
}
