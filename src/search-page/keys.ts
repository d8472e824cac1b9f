/** Arrows walk from the box through the results and back; Escape on a result goes back to the
 * box, and in the box empties it. Enter needs nothing here: a link opens, and the form goes to the first result. */
export function walkByKeys(box: HTMLInputElement, results: HTMLElement, emptied: () => void): void {
  const links = (): HTMLElement[] => [...results.querySelectorAll<HTMLElement>('a.hit')];
  const step = (by: 1 | -1): void => {
    const list = links();
    const here = list.findIndex((link) => link === document.activeElement);
    const next = here + by;
    if (next < 0) box.focus();
    else list[Math.min(next, list.length - 1)]?.focus();
  };
  const inReach = (target: EventTarget | null): boolean =>
    target === box || (target instanceof Element && target.closest('a.hit') !== null);
  document.addEventListener('keydown', (event) => {
    if (!inReach(event.target) || event.isComposing || event.altKey || event.ctrlKey || event.metaKey) return;
    if (event.key === 'ArrowDown' || (event.key === 'ArrowUp' && event.target !== box)) {
      event.preventDefault();
      step(event.key === 'ArrowDown' ? 1 : -1);
    } else if (event.key === 'Escape') {
      event.preventDefault();
      if (event.target === box) {
        box.value = '';
        emptied();
      } else box.focus();
    }
  });
}
