import type { Base } from '../../knowledge/schema/base.ts';
import type { Grade } from '../../knowledge/schema/common.ts';
import type { MaterialBelief, Plan, SystemBelief } from '../../planner/plan-types.ts';

/** When the things of a house come due for renewal by age and wear, from the years they were put in and the lives of
 * such things. It knows nothing of the state of this one: a look decides. */
export interface Due {
  system: string;
  title: string;
  part: string;
  /** What is most likely there. */
  material: string;
  /** Years from now by which one in ten, half and nine in ten of such things are renewed. */
  early: number;
  middle: number;
  late: number;
  /** How the life of the likeliest material is known. */
  grade: Grade;
}

/** Beyond this nobody plans. */
export const HORIZON = 30;
const MOST = 12;
/** What is there less often than this moves no date. */
const SLIGHT = 0.01;

type Material = Base['materials'][number];

/** What comes due within the horizon, soonest first. Systems that are hardly there are left out. */
export function dueFor(base: Base, plan: Plan): Due[] {
  const materials = new Map(base.materials.map((m): [string, Material] => [m.id, m]));
  const groups = new Map(base.systems.map((s): [string, string] => [s.id, s.group]));
  return plan.systems
    .filter((s) => s.present >= 0.5 && groups.get(s.system) !== 'hazard')
    .flatMap((system) => dueOf(system, materials, plan.house.asOf))
    .sort((a, b) => a.middle - b.middle || (a.system < b.system ? -1 : 1))
    .slice(0, MOST);
}

function dueOf(system: SystemBelief, materials: Map<string, Material>, asOf: number): Due[] {
  const there = system.materials.flatMap((belief) => {
    const material = materials.get(belief.material);
    return material === undefined || material.lacks || belief.reachable < SLIGHT
      ? []
      : [{ belief, material }];
  });
  const best = [...there].sort((a, b) => b.belief.reachable - a.belief.reachable)[0];
  const pieces = there.flatMap(({ belief, material }) => piecesOf(belief, material, asOf));
  if (best === undefined || pieces.length === 0) return [];
  const by = (share: number): number => yearsUntil(pieces, share);
  const middle = by(0.5);
  if (middle > HORIZON) return [];
  return [
    {
      system: system.system,
      title: system.title,
      part: system.part,
      material: best.material.title,
      early: by(0.1),
      middle,
      late: by(0.9),
      grade: best.material.life.grade,
    },
  ];
}

/** A thing of one age with one life, and how much it counts. */
export interface Piece {
  weight: number;
  age: number;
  life: number;
  shape: number;
}

/** Three points that stand for a spread: its 10th, 50th and 90th percentile (Swanson and Megill), its 5th, 50th and
 * 95th (Pearson and Tukey). Both rules are cited from memory. */
const OF_AGES = [0.3, 0.4, 0.3];
const OF_LIVES = [0.185, 0.63, 0.185];

/** Ages by lives. A thing that still stands at its age is the likelier to be one of the long-lived. */
function piecesOf(belief: MaterialBelief, { life, shape }: Material, asOf: number): Piece[] {
  const put = belief.installed.reachable;
  if (put === null) return [];
  const ages = [put.p90, put.p50, put.p10].map((year) => Math.max(0, asOf - year));
  const lives = [life.low, life.best, life.high];
  return ages.flatMap((age, i) => {
    const standing = lives.map((one, k) => (OF_LIVES[k] ?? 0) * survives(age, one, shape));
    const total = standing.reduce((sum, w) => sum + w, 0);
    if (total <= 0) return [];
    return lives.map((one, k) => ({
      weight: (belief.reachable * (OF_AGES[i] ?? 0) * (standing[k] ?? 0)) / total,
      age,
      life: one,
      shape,
    }));
  });
}

/** Wear in halvings: 1 at the age by which half are renewed. */
const wear = (age: number, life: number, shape: number): number => (age / life) ** shape;

/** Chance of reaching an age in years. */
const survives = (age: number, life: number, shape: number): number => 0.5 ** wear(age, life, shape);

const FARTHEST = 256;

/** Years from now until a share of the pieces is renewed, to a quarter of a year. */
export function yearsUntil(pieces: readonly Piece[], share: number): number {
  const total = pieces.reduce((sum, p) => sum + p.weight, 0);
  const left = (ahead: number): number =>
    pieces.reduce(
      (sum, { weight, age, life, shape }) =>
        sum + weight * 0.5 ** (wear(age + ahead, life, shape) - wear(age, life, shape)),
      0,
    );
  let from = 0;
  let to = FARTHEST;
  while (to - from > 0.25) {
    const middle = (from + to) / 2;
    if (left(middle) > total * (1 - share)) from = middle;
    else to = middle;
  }
  return to;
}
