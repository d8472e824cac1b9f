import { NO_MARKS, readMarks, type WalkMarks } from './walk-marks.ts';

/** What makes a house the same house while clues come in: marks are kept by these. */
const IDENTITY = ['built', 'foundation', 'place', 'walls', 'storeys', 'area', 'form'];

/** Marks are kept on this device, by house. Where nothing can be kept they last as long as the page. */
export class MarksStore {
  #inHand = new Map<string, WalkMarks>();

  read(params: URLSearchParams): WalkMarks {
    const name = nameOf(params);
    try {
      return readMarks(localStorage.getItem(name));
    } catch {
      return this.#inHand.get(name) ?? NO_MARKS;
    }
  }

  /** Says whether it is kept beyond this page. */
  write(params: URLSearchParams, marks: WalkMarks): boolean {
    const name = nameOf(params);
    this.#inHand.set(name, marks);
    try {
      localStorage.setItem(name, JSON.stringify(marks));
      return true;
    } catch {
      return false;
    }
  }
}

function nameOf(params: URLSearchParams): string {
  const house = IDENTITY.map((key) => `${key}=${(params.get(key) ?? '').trim().toLowerCase()}`);
  return `datestone walk ${house.join('&')}`;
}
