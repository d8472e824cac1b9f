import type { Material } from '../../knowledge/schema/material.ts';
import { AS_TABLED, makeKernels, type ShareFactors } from '../../planner/belief/kernels.ts';
import type { RenewingNode } from '../../planner/belief/renewing.ts';
import { ClassPass, type Span } from './class-pass.ts';
import type { Process } from './parameters.ts';

/** What the loss is taken over: `n` houses built in year index `built` whose record is of class number `of`. */
export interface Count {
  built: number;
  of: number;
  n: number;
}

/** The part of the loss that hangs on the process, and its slopes: by [material][year] of the shares, by the logarithm
 * of each life, and by the yearly hazard of each wave. Materials are those of the kernels, `none` last. */
export interface LossSlope {
  loss: number;
  sNew: Float64Array[];
  sRen: Float64Array[];
  lives: Float64Array;
  hazards: Float64Array;
}

type Worn = { id: string } & Pick<Material, 'shape' | 'whole'>;

/** Minus the log likelihood of recorded classes, with slopes by reverse accumulation through the backward pass
 * (docs/model.md, sections 2 and 8). Chances are mixed over `nodes` of how much owners renew. */
export class ClassLoss {
  readonly #materials: Worn[];
  readonly #members: boolean[][];
  readonly #counts: Count[];
  readonly #from: number;
  readonly #asOf: number;
  readonly #nodes: RenewingNode[];

  constructor(
    materials: Worn[],
    classes: string[][],
    counts: Count[],
    years: { from: number; asOf: number },
    nodes: RenewingNode[],
  ) {
    this.#materials = materials;
    this.#members = [...materials.map((m) => m.id), 'none'].map((id) => classes.map((c) => c.includes(id)));
    this.#counts = counts;
    this.#from = years.from;
    this.#asOf = years.asOf;
    this.#nodes = nodes;
  }

  /** `factors` move the shares of the process; slopes are by the shares so moved. */
  at(process: Process, factors: ShareFactors = AS_TABLED): LossSlope {
    const materials = this.#materials.map((m) => ({ ...m, life: process.lives[m.id] ?? 1 }));
    const passes = this.#nodes.map(({ factor, weight }) => ({
      weight,
      pass: new ClassPass(
        makeKernels(process, materials, this.#from, this.#asOf, factors, factor),
        this.#members,
      ),
      factor,
    }));
    const classes = this.#members[0]?.length ?? 0;
    const last = this.#asOf - this.#from;
    const slope: LossSlope = {
      loss: 0,
      sNew: this.#members.map(() => new Float64Array(last + 1)),
      sRen: this.#members.map(() => new Float64Array(last + 1)),
      lives: new Float64Array(this.#members.length),
      hazards: new Float64Array(process.waves.length),
    };
    const zSlope = new Float64Array((last + 1) * classes);
    for (const { built, of, n } of this.#counts) {
      const at = built * classes + of;
      const chance = passes.reduce((sum, p) => sum + p.weight * (p.pass.z[at] ?? 0), 0);
      slope.loss -= n * Math.log(Math.max(chance, 1e-9));
      if (chance > 1e-9) zSlope[at] = (zSlope[at] ?? 0) - n / chance;
    }
    for (const { pass, weight, factor } of passes) {
      const lambda = pass.reverse(
        zSlope.map((v) => v * weight),
        slope,
      );
      this.#toLivesAndWaves(process, lambda, factor, slope);
    }
    return slope;
  }

  /** From slopes by the wear of each age and the waves of each span to those by lives and hazards. */
  #toLivesAndWaves(
    process: Process,
    lambda: { complete: Span; partial: Span },
    factor: number,
    slope: LossSlope,
  ): void {
    const last = this.#asOf - this.#from;
    const ids = [...this.#materials.map((m) => m.id), 'none'];
    this.#materials.forEach((material, m) => {
      const life = process.lives[material.id] ?? 1;
      for (let age = 1; age <= last; age++) {
        const wear = factor * Math.LN2 * (age / life) ** material.shape;
        if (wear > 600) break;
        const by =
          material.whole * (lambda.complete.age[m]?.[age] ?? 0) +
          (1 - material.whole) * (lambda.partial.age[m]?.[age] ?? 0);
        slope.lives[m] = (slope.lives[m] ?? 0) - material.shape * wear * by;
      }
    });
    process.waves.forEach((wave, w) => {
      ids.forEach((id, m) => {
        if (!wave.of.includes(id) && (id === 'none' || !wave.of.includes('any'))) return;
        let years = 0;
        let sum = 0;
        for (let t = Math.max(0, wave.from - this.#from); t <= last; t++) {
          if (this.#from + t <= wave.to) years++;
          sum +=
            years *
            (wave.whole * (lambda.complete.year[m]?.[t] ?? 0) +
              (1 - wave.whole) * (lambda.partial.year[m]?.[t] ?? 0));
        }
        slope.hazards[w] = (slope.hazards[w] ?? 0) + factor * sum;
      });
    });
  }
}
