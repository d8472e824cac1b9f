import type { Chances, SurveyAnswers } from './survey-answers.ts';
import type { Spread, SurveyParameters } from './survey-parameters.ts';

const STEP = 1e-3;
/** Years of a step of the coarse calendar. */
const COARSE = 4;

/** Answers with one parameter moved. */
interface Move {
  /** Parameters that the move is one of: a place's level is moved by its division's and by its state's. */
  at: number[];
  /** Rows that it touches; null: all. */
  rows: Set<number> | null;
  chances: (place: number) => number[][] | undefined;
}

/** Slope of the log-likelihood with its priors and the expected curvature at x (Fisher). Slopes come from a coarse calendar;
 * what is fitted, `here`, from the exact one. `effective` is how many households a row counts for. */
export function curvatureAt(
  x: Float64Array,
  here: Chances,
  answers: SurveyAnswers,
  parameters: SurveyParameters,
  spread: Spread,
  effective: (r: number) => number,
): { slope: Float64Array; curvature: Float64Array[] } {
  const slope = new Float64Array(x.length);
  const curvature = Array.from({ length: x.length }, () => new Float64Array(x.length));
  const rough = answers.chances(x, COARSE);
  const moves = movesFrom(x, rough, answers, parameters);
  answers.rows.forEach((row, r) => {
    const n = effective(r);
    const p = answers.of(r, (place) => here[place]);
    const roughly = answers.of(r, (place) => rough[place]);
    const touched = moves.filter((move) => move.rows === null || move.rows.has(r));
    const slopes = touched.map((move) =>
      answers.of(r, move.chances).map((v, k) => (v - (roughly[k] ?? 0)) / STEP),
    );
    row.answers.forEach((a, k) => {
      const pk = p[k] ?? 1e-9;
      touched.forEach((one, i) => {
        const si = slopes[i]?.[k] ?? 0;
        if (si === 0) return;
        for (const at of one.at) slope[at] = (slope[at] ?? 0) + (n * a.share * si) / pk;
        touched.forEach((other, j) => {
          const sj = slopes[j]?.[k] ?? 0;
          if (sj === 0) return;
          const w = (n * si * sj) / pk;
          for (const from of one.at) for (const to of other.at) addTo(curvature, from, to, w);
        });
      });
    });
  });
  parameters.priorPrecision(spread, (i, j, value) => {
    addTo(curvature, i, j, value);
    slope[i] = (slope[i] ?? 0) - value * (x[j] ?? 0);
  });
  return { slope, curvature };
}

function addTo(matrix: Float64Array[], i: number, j: number, value: number): void {
  const line = matrix[i];
  if (line !== undefined) line[j] = (line[j] ?? 0) + value;
}

/** A parameter of the nation moves every place; one of a place moves that place's chances alone. */
function movesFrom(
  x: Float64Array,
  here: Chances,
  answers: SurveyAnswers,
  parameters: SurveyParameters,
): Move[] {
  const moved = (i: number): Float64Array => {
    const next = Float64Array.from(x);
    next[i] = (next[i] ?? 0) + STEP;
    return next;
  };
  const national = Array.from({ length: parameters.national }, (_, i): Move => {
    const chances = answers.chances(moved(i), COARSE);
    return { at: [i], rows: null, chances: (place) => chances[place] };
  });
  const local = parameters.places.flatMap((_, place): Move[] => {
    const rows = answers.rowsOf(place);
    if (rows.size === 0) return [];
    return parameters.movesOf(place).flatMap((at): Move[] => {
      const [first] = at;
      if (first === undefined) return [];
      const own = answers.chancesIn(moved(first), place, COARSE);
      return [{ at, rows, chances: (p) => (p === place ? own : here[p]) }];
    });
  });
  return [...national, ...local];
}
