import type { Failure } from '../../knowledge/schema/failure.ts';

/** What is at stake, by level 0 to 3 (none, slight, serious, grave), in common units: about what a buyer would
 * give, in hundreds of dollars, to know of it beforehand. Common practice; they order, they do not price. */
const LEVELS = {
  people: [0, 1.5, 6, 20],
  structure: [0, 1, 4, 12],
  water: [0, 0.8, 3, 8],
  money: [0, 0.6, 2.5, 8],
} as const;

export type Stakes = Failure['stakes'];

/** How a client's situation weighs the stakes: factors on people, structure, water and money. */
const CLIENT_WEIGHTS: Record<string, Partial<Record<keyof Stakes, number>>> = {
  children: { people: 1.6 },
  unsteady: { people: 1.4 },
  breathing: { people: 1.2, water: 1.5 },
  'thin-reserves': { money: 2, structure: 1.3, water: 1.2 },
  renovating: { structure: 1.2, money: 0.8 },
  landlord: { people: 1.3, money: 1.2 },
};

/** Of the worth of knowing of it: how soon it must be known. */
const SOON_WEIGHT: Record<Failure['soon'], number> = {
  'settle-first': 1,
  'budget-for': 0.7,
  'look-after': 0.4,
  'for-the-record': 0.15,
};

const KINDS = ['people', 'structure', 'water', 'money'] as const;

/** Worth of bringing one failure mode to light if it is there, for this client. */
export function stakeOf(failure: Pick<Failure, 'stakes' | 'soon'>, client: readonly string[]): number {
  const weights = weightsOf(client);
  let sum = 0;
  for (let i = 0; i < KINDS.length; i++) {
    const kind = KINDS[i] ?? 'people';
    sum += (weights[i] ?? 1) * (LEVELS[kind][failure.stakes[kind]] ?? 0);
  }
  return sum * SOON_WEIGHT[failure.soon];
}

/** Product of the client's weights on each kind of stake; the last list of words is kept. */
function weightsOf(client: readonly string[]): number[] {
  if (last.client === client) return last.weights;
  const weights = KINDS.map((kind) =>
    client.reduce((product, word) => product * (CLIENT_WEIGHTS[word]?.[kind] ?? 1), 1),
  );
  last = { client, weights };
  return weights;
}

let last: { client: readonly string[]; weights: number[] } = { client: [], weights: [1, 1, 1, 1] };

/** A failure mode that guards life never ranks below this: rare carbon monoxide stands before common rot. */
const LIFE_FLOOR = 2.5;
const LIFE_FLOOR_ODDS = 0.02;

/** Rank of a risk: stake-weighted chance, with the floor for what guards life. */
export function priorityOf(probability: number, stake: number, lifeSafety: boolean): number {
  const worth = probability * stake;
  return lifeSafety && probability >= LIFE_FLOOR_ODDS ? Math.max(worth, LIFE_FLOOR + worth / 10) : worth;
}
