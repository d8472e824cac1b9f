import type { Problem } from '../../../planner/house/resolve.ts';
import { show, toNode } from '../../markup/dom.ts';
import { dwellingsOf, keyOfProblem, partNumbers, problemInWords } from '../params.ts';
import { clueMore } from './clue-fields.ts';
import { errorId, idOf } from './fields.ts';
import { additionFields } from './part-fields.ts';

/** What the form says, as it goes into the address: only what was filled in. */
export function readForm(form: HTMLFormElement): URLSearchParams {
  const data = new FormData(form);
  const clues = new Set(data.getAll('clue').map(String));
  const params = new URLSearchParams();
  const dwellings = dwellingsOf(
    new URLSearchParams({ units: String(data.get('units') ?? ''), form: String(data.get('form') ?? '') }),
  );
  for (const [key, given] of data) {
    const value = String(given).trim();
    if (value === '' || value === 'unknown') continue;
    const ofClue = /^(?:year|at|unit)\.([^.]+)/.exec(key);
    if (ofClue !== null && !clues.has(ofClue[1] ?? '')) continue;
    if (dwellingOf(key, value) > dwellings) continue;
    if (key.startsWith('at.') && value === '1') continue;
    params.append(key, value);
  }
  // Met in the first dwelling alone goes without saying.
  for (const id of clues) if (params.getAll(`unit.${id}`).join() === '1') params.delete(`unit.${id}`);
  if (!params.has('as-of')) params.set('as-of', String(new Date().getFullYear()));
  return params;
}

/** Number of the dwelling that a field of a clue is about; the first where it names none. */
function dwellingOf(key: string, value: string): number {
  if (key.startsWith('unit.')) return Number(value);
  return Number(/^year\.[^.]+\.(\d)$/.exec(key)?.[1] ?? 1);
}

/** Puts what an address says into the form. Unknown keys are passed over; text stays text. */
export function writeForm(form: HTMLFormElement, params: URLSearchParams): void {
  showAdditions(form, params);
  for (const control of form.elements) {
    if (control instanceof HTMLInputElement && control.type === 'checkbox')
      control.checked = isTicked(params, control.name, control.value);
    else if (control instanceof HTMLInputElement) control.value = params.get(control.name) ?? control.value;
    else if (control instanceof HTMLSelectElement) {
      const wanted = params.get(control.name) ?? 'unknown';
      control.value = wanted;
      if (control.selectedIndex === -1) keepOdd(control, wanted);
    }
  }
  for (const control of form.elements)
    if (control instanceof HTMLInputElement && control.type === 'text' && !params.has(control.name))
      if (!control.name.startsWith('name.')) control.value = '';
  for (const group of form.querySelectorAll<HTMLDetailsElement>('.clue-group'))
    if (group.querySelector('input:checked') !== null) group.open = true;
  showClues(form, params);
}

/** A clue that names no dwelling was met in the first. */
function isTicked(params: URLSearchParams, name: string, value: string): boolean {
  const given = params.getAll(name);
  return given.includes(value) || (given.length === 0 && name.startsWith('unit.') && value === '1');
}

/** A word that the list does not have stays visible, so that the fault can be seen and mended. */
function keepOdd(select: HTMLSelectElement, value: string): void {
  const option = document.createElement('option');
  option.value = value;
  option.textContent = value;
  select.append(option);
  select.value = value;
}

export function showAdditions(form: HTMLFormElement, params: URLSearchParams): void {
  const host = form.querySelector('#additions');
  const numbers = partNumbers(params).filter((n) => n > 1);
  if (host !== null)
    show(
      host,
      numbers.map((n) => additionFields(params, n)),
    );
  const fold = host?.closest('details');
  if (fold !== null && fold !== undefined && numbers.length > 0) fold.open = true;
}

/** Gives every ticked clue its fields for the year, the dwelling and the part, and takes them from the others. */
export function showClues(form: HTMLFormElement, params: URLSearchParams): void {
  const places = `${partNumbers(params).join(' ')}, ${dwellingsOf(params)}`;
  for (const clue of form.querySelectorAll<HTMLElement>('.clue')) {
    const box = clue.querySelector<HTMLInputElement>('[name=clue]:checked');
    const more = clue.querySelector('.clue-more');
    const has = `${box?.value} ${places}`;
    if (box === null) more?.remove();
    else if (more === null || clue.dataset.has !== has) {
      more?.remove();
      clue.dataset.has = has;
      clue.append(toNode(clueMore(box.value, clue.dataset.dated !== undefined, params)));
    }
  }
}

/** A clue was met or it was not: of its two boxes the one just ticked stays. */
export function oneOfClue({ target }: Event): void {
  if (!(target instanceof HTMLInputElement) || target.name !== 'clue' || !target.checked) return;
  for (const box of target.closest('.clue')?.querySelectorAll<HTMLInputElement>('[name=clue]') ?? [])
    if (box !== target) box.checked = false;
}

/** Ticks a clue as a person would. */
export function tellClue(form: HTMLFormElement, clue: string): void {
  const boxes = [...form.querySelectorAll<HTMLInputElement>('[name=clue]')];
  const box = boxes.find(({ value, checked }) => value === clue && !checked);
  if (box === undefined) return;
  const group = box.closest<HTMLDetailsElement>('.clue-group');
  if (group !== null) group.open = true;
  box.click();
}

/** Sets each problem beside its field, says how many there are, and clears what is mended. */
export function showProblems(form: HTMLFormElement, problems: Problem[], params: URLSearchParams): string {
  for (const mark of form.querySelectorAll<HTMLElement>('.wrong')) {
    mark.hidden = true;
    mark.textContent = '';
  }
  for (const control of form.querySelectorAll('[aria-invalid]')) control.removeAttribute('aria-invalid');
  for (const problem of problems) {
    const key = keyOfProblem(problem, params);
    const mark = document.getElementById(errorId(key)) ?? document.getElementById(errorId('clue'));
    if (mark === null) continue;
    mark.textContent = problemInWords(problem, params.get(key) ?? problem.value);
    mark.hidden = false;
    const control = document.getElementById(idOf(key));
    control?.setAttribute('aria-invalid', 'true');
    const fold = mark.closest('details');
    if (fold !== null) fold.open = true;
  }
  return problems.length === 0
    ? ''
    : problems.length === 1
      ? 'One input needs mending.'
      : `${problems.length} inputs need mending.`;
}
