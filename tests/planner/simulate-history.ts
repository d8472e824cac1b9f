import { type Kernels, survival } from '../../planner/belief/kernels.ts';

export interface History {
  hidden: { material: number; year: number };
  reachable: { material: number; year: number };
  /** Years of complete and of partial work after the house was built. */
  complete: number[];
  partial: number[];
  /** Every material that was in either portion at some time. */
  ever: Set<number>;
}

/** One history of a house, year by year, straight from the words of the model: two clocks, the complete one on the
 * hidden portion and the partial one on the reachable; if both ring, complete wins. Shares no code with the
 * exact passes but the survival tables. */
export function simulateHistory(kernels: Kernels, built: number, next: () => number): History {
  const draw = (rows: Float64Array[], t: number): number => {
    let u = next();
    for (let m = 0; m < rows.length; m++) {
      u -= rows[m]?.[t] ?? 0;
      if (u < 0) return m;
    }
    return rows.length - 1;
  };
  const first = draw(kernels.sNew, built);
  const history: History = {
    hidden: { material: first, year: built },
    reachable: { material: first, year: built },
    complete: [],
    partial: [],
    ever: new Set([first]),
  };
  for (let t = built + 1; t <= kernels.last; t++) {
    const rings = (clock: Kernels['complete'], piece: { material: number; year: number }): boolean => {
      const before = survival(clock, piece.material, piece.year, t - 1);
      const after = survival(clock, piece.material, piece.year, t);
      return next() < (before > 0 ? 1 - after / before : 1);
    };
    const whole = rings(kernels.complete, history.hidden);
    const part = rings(kernels.partial, history.reachable);
    if (whole) {
      const material = draw(kernels.sRen, t);
      history.hidden = { material, year: t };
      history.reachable = { material, year: t };
      history.complete.push(t);
      history.ever.add(material);
    } else if (part) {
      const material = draw(kernels.sRen, t);
      history.reachable = { material, year: t };
      history.ever.add(material);
      history.partial.push(t);
    }
  }
  return history;
}
