import { open } from '../markup/dom.ts';

/** Which stops of the walk stand open, and where the keyboard goes. */

const folds = (host: Element): HTMLDetailsElement[] => [
  ...host.querySelectorAll<HTMLDetailsElement>('details.stop-fold'),
];
const foldOf = (host: Element, key: string): HTMLDetailsElement | null =>
  host.querySelector<HTMLDetailsElement>(`details[data-key="${CSS.escape(`stop-${key}`)}"]`);

export function foldStops(host: Element, open: boolean): void {
  for (const fold of folds(host)) fold.open = open;
}

/** Folds a stop that is done, opens the next that is not, and takes the keyboard there. */
export function goOn(host: Element, key: string): void {
  const done = foldOf(host, key);
  if (done === null) return;
  done.open = false;
  const list = folds(host);
  const rest = [...list.slice(list.indexOf(done) + 1), ...list];
  const next = rest.find((fold) => fold.closest('.stop-done') === null) ?? done;
  if (next !== done) next.open = true;
  next.querySelector('summary')?.focus();
}

/** The keyboard back on the button that was pressed; where it is gone, on what the stop still has. */
export function focusOn(host: Element, act: string, key: string): void {
  const stop = `[data-stop="${CSS.escape(key)}"]:enabled`;
  const button =
    host.querySelector<HTMLElement>(`[data-act="${act}"]${stop}`) ?? host.querySelector<HTMLElement>(stop);
  (button ?? foldOf(host, key)?.querySelector('summary'))?.focus();
}

/** Paper has no folds: every stop is open while the page prints, and then as it was. */
export function openForPaper(host: Element): void {
  let opened: HTMLDetailsElement[] = [];
  window.addEventListener('beforeprint', () => {
    opened = [...host.querySelectorAll<HTMLDetailsElement>('details[data-whole]:not([open])')];
    for (const fold of opened) open(fold);
  });
  window.addEventListener('afterprint', () => {
    for (const fold of opened) fold.open = false;
    opened = [];
  });
}
