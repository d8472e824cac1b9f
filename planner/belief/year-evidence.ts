import type { Entry } from '../../knowledge/schema/base.ts';
import type { System } from '../../knowledge/schema/system.ts';
import type { BaseIndex } from '../base-index.ts';
import type { House, Part } from '../house/house.ts';
import { draft } from './draft.ts';
import { evidenceByPair, type Informed } from './mixture.ts';
import { nodePairs, spreadsOf } from './renewing.ts';

/** What is known of a part, for one kind of owner: log-likelihood for every build year, up to a constant that is the
 * same for all kinds. */
export interface EvidenceNode {
  weight: number;
  log: Float64Array;
}

/** Likelihood of the clues of a part and of its given inputs, for every build year from `from` to the as-of year and
 * every kind of owner. An input that is given counts once, in the system that carries it; elsewhere it only narrows
 * what the clues can mean. `without` leaves clues out. */
export function evidenceNodes(
  index: BaseIndex,
  house: House,
  part: Part,
  from: number,
  without: ReadonlySet<string>,
): EvidenceNode[] {
  const informed = index.base.systems
    .filter((system) => house.parts[0] === part || system.scope === 'part')
    .flatMap((system) => systemEvidence(index, house, part, system, from, without));
  const pairs = nodePairs(spreadsOf(index.base));
  const logs = evidenceByPair(informed, pairs, from, house.asOf);
  return pairs.map(({ weight }, n) => ({ weight, log: logs[n] ?? new Float64Array() }));
}

/** The system whose shares by year say how common an input was among new houses. */
const CARRIERS: { input: 'foundation' | 'walls'; system: string }[] = [
  { input: 'foundation', system: 'foundation' },
  { input: 'walls', system: 'wall-framing' },
];

/** What one system says of the build year; nothing where it has no clue and carries no input. */
function systemEvidence(
  index: BaseIndex,
  house: House,
  part: Part,
  system: Entry<System>,
  from: number,
  without: ReadonlySet<string>,
): Informed[] {
  const carries = CARRIERS.some(({ input, system: id }) => id === system.id && part[input].length === 1);
  const hasClue = house.clues.some(({ id }) => !without.has(id) && index.clues.get(id)?.system === system.id);
  if (!carries && !hasClue) return [];
  const vague = { ...part, built: { ...part.built, years: [{ value: from, p: 1 }] } };
  const known = draft(index, house, vague, system, without);
  const told = { part, renewedWith: system.renewedWith, from };
  if (known.z.length === 0) return [];
  if (carries) return [{ ...told, z: known.z }];
  if (known.clues.length === 0) return [];
  const inputs = draft(index, { ...house, clues: [] }, vague, system, without).z;
  return [{ ...told, z: known.z.map((row, n) => row.map((v, t) => v / (inputs[n]?.[t] ?? 1))) }];
}
