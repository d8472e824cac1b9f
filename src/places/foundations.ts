import { join } from 'node:path';
import type { Places } from '../../knowledge/schema/place.ts';
import { FOUNDATIONS } from '../../knowledge/schema/words.ts';
import { numberOf, readTable, textOf } from '../csv/read-table.ts';
import { toShares } from './stock.ts';

type Kind = (typeof FOUNDATIONS)[number];
type Shares = Record<Kind, number>;
/** Kinds as the surveys name them. */
type Answer = 'basement' | 'crawl' | 'slab' | 'open';

const ANSWERS: Record<string, Answer> = {
  'Heated Basement': 'basement',
  'Unheated Basement': 'basement',
  'Vented Crawlspace': 'crawl',
  'Unvented Crawlspace': 'crawl',
  Slab: 'slab',
  Ambient: 'open',
};

/** A vintage with its names in the two surveys, and what the surveys do not say (all of it practice):
 * what basement walls are built of, and how many crawl spaces stand on piers or posts where that is usual. */
interface Vintage {
  years: [number, number];
  resstock: string;
  recs: string;
  walls: [stone: number, brick: number, block: number, concrete: number];
  piersInSouth: number;
  postsInWest: number;
}

const VINTAGES: Vintage[] = [
  {
    years: [1850, 1899],
    resstock: '<1940',
    recs: '<1940',
    walls: [0.5, 0.35, 0.02, 0.13],
    piersInSouth: 0.6,
    postsInWest: 0.35,
  },
  {
    years: [1900, 1919],
    resstock: '<1940',
    recs: '<1940',
    walls: [0.28, 0.3, 0.25, 0.17],
    piersInSouth: 0.45,
    postsInWest: 0.25,
  },
  {
    years: [1920, 1939],
    resstock: '<1940',
    recs: '<1940',
    walls: [0.08, 0.17, 0.45, 0.3],
    piersInSouth: 0.25,
    postsInWest: 0.15,
  },
  {
    years: [1940, 1959],
    resstock: '1940-59',
    recs: '1940-59',
    walls: [0.02, 0.05, 0.6, 0.33],
    piersInSouth: 0.1,
    postsInWest: 0.05,
  },
  {
    years: [1960, 1979],
    resstock: '1960-79',
    recs: '1960-79',
    walls: [0, 0, 0.5, 0.5],
    piersInSouth: 0.03,
    postsInWest: 0.02,
  },
  {
    years: [1980, 1999],
    resstock: '1980-99',
    recs: '1980-2001',
    walls: [0, 0, 0.35, 0.65],
    piersInSouth: 0.03,
    postsInWest: 0.02,
  },
  {
    years: [2000, 2009],
    resstock: '2000-09',
    recs: '1980-2001',
    walls: [0, 0, 0.2, 0.8],
    piersInSouth: 0.03,
    postsInWest: 0.02,
  },
  {
    years: [2010, 2019],
    resstock: '2010s',
    recs: '1980-2001',
    walls: [0, 0, 0.15, 0.85],
    piersInSouth: 0.03,
    postsInWest: 0.02,
  },
];

const SOUTH = new Set(['1A', '2A', '3A']);
const WEST = new Set(['3B', '3C', '4C']);
/** Open foundations on masonry piers; the rest stand on wood posts. */
const OPEN_ON_PIERS = 0.8;

/** Foundation kinds by climate zone and vintage. ResStock allows a house one kind; the energy survey of 2001
 * allowed several, so its national shares of houses with one kind only and with two or more are laid over. */
export function readFoundations(folder: string): Omit<Places['foundations'], 'byDivision' | 'factorYears'> {
  return {
    kinds: [...FOUNDATIONS],
    vintages: VINTAGES.map(({ years }) => years),
    byZone: tablesOf(folder, 'Single-Family Detached'),
    rowByZone: tablesOf(folder, 'Single-Family Attached'),
    source: ['nrel-resstock-3-2', 'recs-2001'],
  };
}

function tablesOf(folder: string, building: string): Record<string, number[][]> {
  const answers = answersByZone(folder, building);
  const recs = overlapByVintage(folder);
  const byZone: Record<string, number[][]> = {};
  for (const zone of answers.keys())
    byZone[zone] = VINTAGES.map((vintage) => {
      const found = answers.get(zone)?.get(vintage.resstock) ?? answers.get('ALL')?.get(vintage.resstock);
      const overlap = recs.get(vintage.recs);
      if (found === undefined || overlap === undefined)
        throw new Error(`no foundations for ${zone}, ${vintage.resstock}`);
      const shares = spread(found, overlap, vintage, zone);
      return toShares(FOUNDATIONS.map((kind) => shares[kind]));
    });
  return byZone;
}

/** Share of houses with a kind that have no other, and share of houses with two kinds or more. */
interface Overlap {
  only: Record<Answer, number>;
  mixed: number;
}

function spread(found: Record<Answer, number>, overlap: Overlap, vintage: Vintage, zone: string): Shares {
  const single = Object.fromEntries(
    Object.entries(found).map(([answer, share]) => [answer, share * overlap.only[answer as Answer]]),
  ) as Record<Answer, number>;
  const scale = (1 - overlap.mixed) / Object.values(single).reduce((sum, share) => sum + share, 0);
  const basement = single.basement * scale;
  const crawl = single.crawl * scale;
  const open = single.open * scale;
  const onPiers = crawl * (SOUTH.has(zone) ? vintage.piersInSouth : 0);
  const onPosts = crawl * (WEST.has(zone) ? vintage.postsInWest : 0);
  const [stone, brick, block, concrete] = vintage.walls;
  return {
    piers: onPiers + open * OPEN_ON_PIERS,
    posts: onPosts + open * (1 - OPEN_ON_PIERS),
    crawl: crawl - onPiers - onPosts,
    'basement-stone': basement * stone,
    'basement-brick': basement * brick,
    'basement-block': basement * block,
    'basement-concrete': basement * concrete,
    slab: single.slab * scale,
    mixed: overlap.mixed,
  };
}

function answersByZone(folder: string, building: string): Map<string, Map<string, Record<Answer, number>>> {
  const byZone = new Map<string, Map<string, Record<Answer, number>>>();
  for (const row of readTable(join(folder, 'resstock-foundation.csv'))) {
    if (textOf(row, 'building_type') !== building) continue;
    const answer = ANSWERS[textOf(row, 'foundation')];
    if (answer === undefined) throw new Error(`foundation "${textOf(row, 'foundation')}" is not known here`);
    const zone = textOf(row, 'iecc_zone_2004');
    const byVintage = byZone.get(zone) ?? new Map<string, Record<Answer, number>>();
    const vintage = textOf(row, 'vintage');
    const shares = byVintage.get(vintage) ?? { basement: 0, crawl: 0, slab: 0, open: 0 };
    shares[answer] += numberOf(row, 'p');
    byVintage.set(vintage, shares);
    byZone.set(zone, byVintage);
  }
  return byZone;
}

function overlapByVintage(folder: string): Map<string, Overlap> {
  const us = readTable(join(folder, 'recs2001-foundation-sf.csv')).filter(
    (row) => textOf(row, 'division') === 'US',
  );
  const share = (vintage: string, answer: string): number => {
    const row = us.find(
      (r) => textOf(r, 'year_built') === vintage && textOf(r, 'foundation_answer') === answer,
    );
    if (row === undefined) throw new Error(`recs2001-foundation-sf.csv has no ${answer} for ${vintage}`);
    return numberOf(row, 'p_weighted');
  };
  return new Map(
    [...new Set(VINTAGES.map(({ recs }) => recs))].map((vintage): [string, Overlap] => [
      vintage,
      {
        only: {
          basement: share(vintage, 'basement_only') / share(vintage, 'any_basement'),
          crawl: share(vintage, 'crawl_only') / share(vintage, 'any_crawl'),
          slab: share(vintage, 'slab_only') / share(vintage, 'any_slab'),
          open: 1,
        },
        mixed: share(vintage, 'mixed(2+ types)'),
      },
    ]),
  );
}
