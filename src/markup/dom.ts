import { attributes, type Mark } from './h.ts';

const SVG = 'http://www.w3.org/2000/svg';

/** A mark as nodes, for what is computed in the browser. */
export function toNode(mark: Mark | string, inSvg = false): Node {
  if (typeof mark === 'string') return document.createTextNode(mark);
  const svg = inSvg || mark.tag === 'svg';
  const element = svg ? document.createElementNS(SVG, mark.tag) : document.createElement(mark.tag);
  for (const [name, value] of attributes(mark)) element.setAttribute(name, value);
  for (const child of mark.children) element.append(toNode(child, svg));
  return element;
}

/** Puts marks in place of what an element holds, and keeps open what the reader had opened
 * (`details` with the same `data-key`). */
export function show(host: Element, marks: (Mark | string)[]): void {
  const wasOpen = new Map<string, boolean>();
  for (const details of host.querySelectorAll<HTMLDetailsElement>('details[data-key]'))
    wasOpen.set(details.dataset.key ?? '', details.open);
  const fragment = document.createDocumentFragment();
  for (const mark of marks) fragment.append(toNode(mark));
  for (const details of fragment.querySelectorAll<HTMLDetailsElement>('details[data-key]')) {
    const open = wasOpen.get(details.dataset.key ?? '');
    if (open !== undefined) details.open = open;
  }
  host.replaceChildren(fragment);
}
