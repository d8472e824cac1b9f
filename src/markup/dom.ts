import { attributes, type Mark } from './h.ts';

const SVG = 'http://www.w3.org/2000/svg';

/** What stands under a summary is made when it is first opened: a plan has a thousand lines that stay closed. */
const folded = new WeakMap<Element, (Mark | string)[]>();

/** A mark as nodes, for what is computed in the browser. */
export function toNode(mark: Mark | string, inSvg = false): Node {
  if (typeof mark === 'string') return document.createTextNode(mark);
  const svg = inSvg || mark.tag === 'svg';
  const element = svg ? document.createElementNS(SVG, mark.tag) : document.createElement(mark.tag);
  for (const [name, value] of attributes(mark)) element.setAttribute(name, value);
  const [first, ...rest] = mark.children;
  const folds = mark.tag === 'details' && 'data-key' in mark.attrs && rest.length > 0;
  if (folds) folded.set(element, rest);
  for (const child of folds && first !== undefined ? [first] : mark.children)
    element.append(toNode(child, svg));
  return element;
}

function unfold(details: Element): void {
  const marks = folded.get(details);
  if (marks === undefined) return;
  folded.delete(details);
  for (const mark of marks) details.append(toNode(mark));
}

const watched = new WeakSet<Element>();

/** Puts marks in place of what an element holds, and keeps open what the reader had opened
 * (`details` with the same `data-key`). */
export function show(host: Element, marks: (Mark | string)[]): void {
  if (!watched.has(host)) {
    watched.add(host);
    host.addEventListener('toggle', ({ target }) => target instanceof Element && unfold(target), true);
  }
  const wasOpen = new Set<string>();
  for (const details of host.querySelectorAll<HTMLDetailsElement>('details[data-key]'))
    if (details.open) wasOpen.add(details.dataset.key ?? '');
  const fragment = document.createDocumentFragment();
  for (const mark of marks) fragment.append(toNode(mark));
  reopen(fragment, wasOpen);
  host.replaceChildren(fragment);
}

/** Opens again what was open, from the outside in: the inner ones are made by opening the outer. */
function reopen(root: ParentNode, keys: Set<string>): void {
  for (const details of root.querySelectorAll<HTMLDetailsElement>('details[data-key]')) {
    if (details.open || !keys.has(details.dataset.key ?? '')) continue;
    unfold(details);
    details.open = true;
    reopen(details, keys);
  }
}
