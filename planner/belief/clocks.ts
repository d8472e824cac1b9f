import type { Wave } from '../../knowledge/schema/system.ts';
import { exp, log, pow } from '../numerics/functions.ts';
import type { Clock, RenewalMaterial } from './kernels.ts';

/** Survival of the waves is kept above this, so that it can be divided by; of what is worn by more than `MOST_WEAR`
 * (1 in 1e20) nothing is left. Both keep clear of numbers so small that engines are slow with them. */
const LEAST = 1e-60;
const MOST_WEAR = 46;

/** Both clocks of each material, from year `from` to `last` years later. `oldest` is the greatest age that each may
 * have; `renewing` multiplies both hazards. */
export function makeClocks(
  materials: RenewalMaterial[],
  oldest: number[],
  waves: Wave[],
  from: number,
  last: number,
  renewing: number,
): { complete: Clock; partial: Clock } {
  const rows = new Rows(last + 1);
  const complete: Clock = { byAge: [], byYear: [] };
  const partial: Clock = { byAge: [], byYear: [] };
  materials.forEach((m, i) => {
    const age = oldest[i] ?? last;
    complete.byAge.push(ageing(rows, m, renewing * m.whole, age));
    partial.byAge.push(ageing(rows, m, renewing * (1 - m.whole), age));
    const own = waves.filter((w) => w.of.includes(m.id) || (m.id !== 'none' && w.of.includes('any')));
    complete.byYear.push(calendar(rows, own, (w) => w.whole, from, renewing));
    partial.byYear.push(calendar(rows, own, (w) => 1 - w.whole, from, renewing));
  });
  return { complete, partial };
}

const ROWS_AT_ONCE = 8;

/** Rows cut from few pieces of memory. Most materials do not wear, or meet no wave, on one of the clocks: those share
 * a row of ones. */
class Rows {
  readonly ones: Float64Array;
  readonly #width: number;
  #memory = new Float64Array(0);
  #taken = 0;

  constructor(width: number) {
    this.#width = width;
    this.ones = this.next().fill(1);
  }

  next(): Float64Array {
    const at = this.#width * this.#taken++;
    if (at < this.#memory.length) return this.#memory.subarray(at, at + this.#width);
    this.#memory = new Float64Array(ROWS_AT_ONCE * this.#width);
    this.#taken = 1;
    return this.#memory.subarray(0, this.#width);
  }
}

/** Survival of wear by age, as far as the material can have aged; constant from there on. */
function ageing(rows: Rows, { life, shape }: RenewalMaterial, part: number, oldest: number): Float64Array {
  if (life === null || part === 0 || oldest <= 0) return rows.ones;
  const survived = rows.next();
  survived[0] = 1;
  const powers = agePowers(shape, oldest);
  const scale = (part * Math.LN2) / pow(life, shape);
  for (let age = 1; age <= oldest; age++) {
    const wear = scale * (powers[age] as number);
    if (wear > MOST_WEAR) return survived;
    survived[age] = exp(-wear);
  }
  return survived.fill(survived[oldest] as number, oldest + 1);
}

/** Survival of the waves by calendar year. */
function calendar(
  rows: Rows,
  waves: Wave[],
  partOf: (wave: Wave) => number,
  from: number,
  renewing: number,
): Float64Array {
  if (waves.every((wave) => partOf(wave) === 0)) return rows.ones;
  const survived = rows.next().fill(1);
  for (const wave of waves) {
    const part = renewing * partOf(wave);
    if (part === 0) continue;
    const yearly = exp(part * log(1 - Math.min(wave.rate, 0.9)));
    let now = 1;
    for (let t = Math.max(0, wave.from - from); t < survived.length; t++) {
      if (from + t <= wave.to) now *= yearly;
      survived[t] = Math.max(LEAST, (survived[t] as number) * now);
    }
  }
  return survived;
}

/** Whole ages to the power of a shape, made once for each shape: they depend on nothing else. */
function agePowers(shape: number, oldest: number): Float64Array {
  const ready = powersMade.get(shape);
  if (ready !== undefined && ready.length > oldest) return ready;
  const made = Float64Array.from({ length: Math.max(256, oldest + 1) }, (_, age) => pow(age, shape));
  powersMade.set(shape, made);
  return made;
}

const powersMade = new Map<number, Float64Array>();
