import type { Base } from '../../knowledge/schema/base.ts';
import { type BaseIndex, indexBase } from '../../planner/base-index.ts';
import { DOUBT } from '../../planner/belief/doubt.ts';
import { houseYears } from '../../planner/belief/house-years.ts';
import type { Odds } from '../../planner/house/house.ts';
import { stockByYear } from '../../planner/house/priors.ts';
import { nextScoring, scoredSentence } from './calibration-page.ts';
import { CARD_CLUES, type CardHouse, cardDater, cluesOf, readCards, SYSTEM_COLUMNS } from './dating-ames.ts';
import { crossTable, naiveBayes, townStock } from './dating-rivals.ts';
import { type SampledHouse, type SampleOptions, sampleHouses } from './dating-sample.ts';
import {
  type DoubtScore,
  type SpanScore,
  scoreDoubts,
  scoreOldAlarms,
  scoreSpans,
  type Weighed,
} from './dating-scores.ts';
import type { Step } from './steps.ts';

const KEPT_OUT = 'For dating, the kept-out rows';
const OLDEST = 1800;
const ALL_COLUMNS = Object.keys(CARD_CLUES);

/** Places and year of the sampled houses. */
const SETTING = { states: ['OH', 'KY', 'GA', 'IA', 'MA', 'CA', 'WA', 'NM'], asOf: 2026 };

const MET_ONLY = { ...SETTING, count: 800, allMet: false, missedToo: false };
const SAMPLES: { name: string; options: SampleOptions }[] = [
  { name: 'three looks, all met', options: { ...MET_ONLY, seed: 1, looks: [3, 3], allMet: true } },
  { name: '8 to 20 looks', options: { ...MET_ONLY, seed: 2, looks: [8, 20] } },
  { name: '40 to 60 looks', options: { ...MET_ONLY, seed: 3, looks: [40, 60] } },
  {
    name: '8 to 20 looks, not met told too',
    options: { ...MET_ONLY, seed: 4, looks: [8, 20], missedToo: true },
  },
  {
    name: '40 to 60 looks, not met told too',
    options: { ...MET_ONLY, seed: 5, looks: [40, 60], missedToo: true },
  },
];

/** Dating, on houses made by the model and on the assessor's cards of Ames. */
export const datingStep: Step = {
  id: 'dating',
  sections: ({ base, folder, page, log }) => [
    datingSection(base, readCards(folder), nextScoring(page, KEPT_OUT), log),
  ],
};

/** Lines of the section "Dating". `count` is how often the kept-out rows have been scored, this time included. */
export function datingSection(
  base: Base,
  cards: CardHouse[],
  count: number,
  log: (line: string) => void,
): string[] {
  const index = indexBase(base);
  const held = cards.filter((c) => c.held);
  const samples = SAMPLES.map(({ name, options }) => {
    const houses = sampleHouses(index, options);
    log(`dating: ${name}`);
    return { name, houses, weighed: weigh(index, houses) };
  });
  const old = scoreOldAlarms(samples.slice(1, 3).flatMap((s) => s.weighed));
  return [
    '## Dating',
    '',
    'What was tested: `datestone date`, which gives odds over the build year from clues alone, the smallest run of years with',
    'four fifths of the odds (*held*: it holds the true year) and the middle year, the median (*within 10*: it is at most ten',
    `years off). A listed year is doubted if the clues are more than ${DOUBT} times likelier for a house of unknown age.`,
    '*Late* and *early*: share of listed years thirty years after and before the true one that are doubted.',
    '',
    '### Houses made by the model',
    '',
    `Build year from the stock of ${SETTING.states.join(', ')} in turn, owners and history from the renewal model, clues met with the`,
    'chances the base gives. Nameplates are in, misread as often as the base takes them to be; dated papers are not. This tests',
    'the arithmetic, not the base. Of each group of clues looked into one clue is looked for. Where all that was looked for was met,',
    'or what was not met is told too, the span should hold the year in 80% of houses; elsewhere what was looked for and not met',
    'is knowledge that nobody told, and the spans are wider than they need be. *At 5%*: the ratio at which one true year in twenty is doubted.',
    '',
    '| houses | n | clues told | within 10 | held | years in span | true doubted | late | early | both | at 5% |',
    '| --- | --: | --: | --: | --: | --: | --: | --: | --: | --: | --: |',
    ...samples.map(({ name, houses, weighed }) => sampleRow(name, houses, weighed)),
    '',
    'Among those of 8 to 60 looks that were built before 1920, at the threshold that doubts one true year in twenty of any age,',
    `the evidence ratio doubts ${percent(old.ratio)} of the true years; the odds that the true year is more than twenty years off would doubt`,
    `${percent(old.farOff)} of them (${old.houses} houses), only because so few houses are that old. So the flag is the ratio.`,
    '',
    '### Cards of Ames',
    '',
    "The assessor's words read as clues of the base (`src/calibrate/dating-ames.ts`): *five systems* are foundation, cladding,",
    'service equipment, central cooling and heating; *with shape* adds stories, setting, garage, roof, porch and basement height.',
    'Years on the card (garage, remodelling) are left out, since most of them repeat the build year. The chances by year behind',
    'the shape clues were written down before they were held against these rows and nothing was fitted; which of them to write',
    'was chosen with the fit rows in view. The five systems were fitted to the fit rows.',
    scoredSentence(KEPT_OUT, count),
    '*Naive Bayes* and *cross table* learn decades from the fit rows of this very town: what such cards could tell at best.',
    '',
    `| ${held.length} kept-out rows | prior | within 10 | held | years in span | true doubted | late | early | both |`,
    '| --- | --- | --: | --: | --: | --: | --: | --: | --: |',
    ...cardRows(index, cards),
    '',
    'By the age of the house, with shape, prior of the state (fit rows and kept-out rows apart):',
    '',
    '| rows | built | n | within 10 | held | years in span | true doubted | late | early | at 5% |',
    '| --- | --- | --: | --: | --: | --: | --: | --: | --: | --: |',
    ...ageRows(index, cards),
    '',
    'A listed year thirty years too early is hard to doubt in an old house: its materials have been renewed, and what is left was',
    'sold thirty years before as well.',
  ];
}

function sampleRow(name: string, houses: SampledHouse[], weighed: Weighed[]): string {
  const doubts = scoreDoubts(weighed);
  const told = houses.reduce((sum, h) => sum + h.house.clues.length, 0) / houses.length;
  return `| ${[name, houses.length, told.toFixed(1), ...spanCells(spansOf(weighed)), ...doubtCells(doubts), percent(doubts.caught), doubts.atFivePercent.toFixed(2)].join(' | ')} |`;
}

/** Dates sampled houses as `datestone date` would. */
export function weigh(index: BaseIndex, houses: SampledHouse[]): Weighed[] {
  return houses.map(({ built, house }) => {
    const prior = stockByYear(index.base, house.place.state, OLDEST, house.asOf);
    return { built, asOf: house.asOf, found: houseYears(index, house, prior, new Set()) };
  });
}

function cardRows(index: BaseIndex, cards: CardHouse[]): string[] {
  const fit = cards.filter((c) => !c.held);
  const held = cards.filter((c) => c.held);
  const ofState = cardDater(index, (asOf) => stockByYear(index.base, 'IA', OLDEST, asOf));
  const ofTown = cardDater(index, (asOf) => fromOldest(townStock(fit, asOf), asOf));
  const ours = (name: string, prior: string, columns: readonly string[], date: typeof ofState): string => {
    const weighed = held.map((c) => weighCard(c, columns, date));
    const doubts = scoreDoubts(weighed);
    return `| ${[name, prior, ...spanCells(spansOf(weighed)), ...doubtCells(doubts), percent(doubts.caught)].join(' | ')} |`;
  };
  const rival = (name: string, years: (c: CardHouse) => Odds<number>): string => {
    const spans = scoreSpans(held.map((c) => ({ built: c.built, asOf: c.sold, years: years(c) })));
    return `| ${[name, 'fit rows', ...spanCells(spans)].join(' | ')} | | | | |`;
  };
  return [
    ours('Datestone, five systems', 'Iowa', SYSTEM_COLUMNS, ofState),
    ours('Datestone, with shape', 'Iowa', ALL_COLUMNS, ofState),
    ours('Datestone, five systems', 'fit rows', SYSTEM_COLUMNS, ofTown),
    ours('Datestone, with shape', 'fit rows', ALL_COLUMNS, ofTown),
    rival('naive Bayes, five systems', naiveBayes(fit, SYSTEM_COLUMNS)),
    rival('cross table, five systems', crossTable(fit, SYSTEM_COLUMNS)),
    rival('naive Bayes, with shape', naiveBayes(fit, ALL_COLUMNS)),
    rival('cross table, with shape', crossTable(fit, ALL_COLUMNS)),
  ];
}

function ageRows(index: BaseIndex, cards: CardHouse[]): string[] {
  const date = cardDater(index, (asOf) => stockByYear(index.base, 'IA', OLDEST, asOf));
  return [
    { rows: 'fit', own: cards.filter((c) => !c.held) },
    { rows: 'kept out', own: cards.filter((c) => c.held) },
  ].flatMap(({ rows, own }) => {
    const weighed = own.map((c) => weighCard(c, ALL_COLUMNS, date));
    return [
      { name: 'any year', from: OLDEST, before: 9999 },
      { name: 'before 1940', from: OLDEST, before: 1940 },
      { name: '1940 to 1979', from: 1940, before: 1980 },
      { name: '1980 on', from: 1980, before: 9999 },
    ].map(({ name, from, before }) => {
      const those = weighed.filter((w) => w.built >= from && w.built < before);
      const doubts = scoreDoubts(those);
      return `| ${[rows, name, doubts.houses, ...spanCells(spansOf(those)), ...doubtCells(doubts), doubts.atFivePercent.toFixed(2)].join(' | ')} |`;
    });
  });
}

function weighCard(card: CardHouse, columns: readonly string[], date: ReturnType<typeof cardDater>): Weighed {
  return { built: card.built, asOf: card.sold, found: date(cluesOf(card.words, columns), card.sold) };
}

/** A prior of consecutive years from `OLDEST` on; years before the town's first decade are nearly ruled out. */
function fromOldest(years: Odds<number>, asOf: number): Odds<number> {
  const odds = new Map(years.map((y) => [y.value, y.p]));
  return Array.from({ length: asOf - OLDEST + 1 }, (_, i) => ({
    value: OLDEST + i,
    p: odds.get(OLDEST + i) ?? 1e-9,
  }));
}

function spansOf(weighed: Weighed[]): SpanScore {
  return scoreSpans(weighed.map((w) => ({ ...w, years: w.found.main })));
}

function spanCells({ withinTen, held, width }: SpanScore): string[] {
  return [percent(withinTen), percent(held), width.toFixed(0)];
}

function doubtCells({ falseAlarms, late, early }: DoubtScore): string[] {
  return [percent(falseAlarms), percent(late), percent(early)];
}

/** A share of no houses is shown as a dash. */
function percent(share: number): string {
  return Number.isNaN(share) ? '-' : `${(100 * share).toFixed(1)}%`;
}
