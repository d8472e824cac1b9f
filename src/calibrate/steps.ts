import type { Base } from '../../knowledge/schema/base.ts';

/** What a step of the calibration gets. */
export interface Context {
  /** Folder of open data, as named on the command line. */
  folder: string;
  /** Folder `knowledge/` of the repository; fits go to `fits/` in it. */
  knowledge: string;
  /** Folder `docs/` of the repository. */
  docs: string;
  /** The base as it stands: with the fits of the steps before this one. */
  base: Base;
  /** docs/calibration.md as it stands, for the counts of scorings so far. */
  page: string;
  log: (line: string) => void;
}

/** One part of the calibration: what it fits, and what it says of it in docs/calibration.md. */
export interface Step {
  /** Name for `--only`. */
  id: string;
  /** Writes to knowledge/fits/. Must not look at rows that its own section keeps out. */
  fit?: (context: Context) => void;
  /** Lines of each of its sections; the first is the heading, `## ...`, and no other line starts so. */
  sections?: (context: Context) => string[][];
}
