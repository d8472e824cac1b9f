import { attributes, type Mark } from './h.ts';

const SVG = 'http://www.w3.org/2000/svg';

/** What stands under a summary is made when it is first opened. */
const folded = new WeakMap<Element, () => (Mark | string)[]>();

/** A mark as nodes, for what is computed in the browser. */
export function toNode(mark: Mark | string, inSvg = false): Node {
  if (typeof mark === 'string') return document.createTextNode(mark);
  const svg = inSvg || mark.tag === 'svg';
  const element = svg ? document.createElementNS(SVG, mark.tag) : document.createElement(mark.tag);
  for (const [name, value] of attributes(mark)) element.setAttribute(name, value);
  for (const child of mark.children) element.append(toNode(child, svg));
  if (mark.later !== undefined) {
    folded.set(element, mark.later);
    if (mark.attrs.open === true) unfold(element);
  }
  return element;
}

function unfold(details: Element): void {
  const make = folded.get(details);
  if (make === undefined) return;
  folded.delete(details);
  for (const mark of make()) details.append(toNode(mark));
}

/** Opens what is folded, with all that is under it, at once. */
export function open(details: HTMLDetailsElement): void {
  unfold(details);
  details.open = true;
}

const watched = new WeakSet<Element>();

/** Puts marks in place of what an element holds, and keeps open or closed what the reader had so
 * (`details` with the same `data-key`); what is new stands as the marks have it. */
export function show(host: Element, marks: (Mark | string)[]): void {
  if (!watched.has(host)) {
    watched.add(host);
    host.addEventListener('toggle', ({ target }) => target instanceof Element && unfold(target), true);
  }
  const was = new Map<string, boolean>();
  for (const details of host.querySelectorAll<HTMLDetailsElement>('details[data-key]'))
    was.set(details.dataset.key ?? '', details.open);
  const fragment = document.createDocumentFragment();
  for (const mark of marks) fragment.append(toNode(mark));
  keepAsWas(fragment, was);
  host.replaceChildren(fragment);
}

/** Opens and closes as it was, from the outside in: the inner ones are made by opening the outer. */
function keepAsWas(root: ParentNode, was: ReadonlyMap<string, boolean>): void {
  for (const details of root.querySelectorAll<HTMLDetailsElement>('details[data-key]')) {
    const wasOpen = was.get(details.dataset.key ?? '');
    if (wasOpen === undefined || wasOpen === details.open) continue;
    if (!wasOpen) details.open = false;
    else {
      open(details);
      keepAsWas(details, was);
    }
  }
}
