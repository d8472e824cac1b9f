import { oddsInWords } from '../../../planner/condition/odds-words.ts';
import type { Part } from '../../../planner/house/house.ts';
import type { MaterialBelief, Plan, SystemBelief } from '../../../planner/plan-types.ts';
import { type Callout, houseSection, type Spot } from '../../drawings/section.ts';
import type { SectionPart } from '../../drawings/section-measure.ts';
import { h, type Mark } from '../../markup/h.ts';
import { toEntry } from '../../site/link.ts';
import type { PlanWords } from '../words.ts';
import { houseInWords, likeliest } from './house-words.ts';
import { named } from './odds-list.ts';

/** Systems that the section points at, from the roof down. */
const SPOTS: readonly { spot: Spot; system: string }[] = [
  { spot: 'roof', system: 'roof-covering' },
  { spot: 'chimney', system: 'chimneys-and-vents' },
  { spot: 'attic', system: 'branch-wiring' },
  { spot: 'wall', system: 'cladding' },
  { spot: 'service', system: 'service-equipment' },
  { spot: 'window', system: 'windows' },
  { spot: 'stack', system: 'drains' },
  { spot: 'floor', system: 'floor-framing' },
  { spot: 'under', system: 'foundation' },
  { spot: 'plant', system: 'heating-plant' },
  { spot: 'ground', system: 'sewer-lateral' },
];

/** The house drawn in section, and the key to its numbers in words. */
export function houseFigure(plan: Plan, words: PlanWords): Mark {
  const main = plan.house.parts[0]?.name;
  const keyed = SPOTS.flatMap(({ spot, system }) => {
    const belief =
      plan.systems.find((s) => s.system === system && s.part === main) ??
      plan.systems.find((s) => s.system === system);
    return belief === undefined ? [] : [{ spot, belief }];
  });
  const callouts = keyed.map(({ spot }, i): Callout => ({ number: i + 1, spot }));
  return h(
    'figure',
    { class: 'house-figure' },
    houseSection(
      plan.house.parts.map(sectionPart),
      callouts,
      'section',
      `Section: ${houseInWords(plan.house, words.place)}`,
    ),
    h(
      'figcaption',
      {},
      'Drawn from what was given; what is not known is drawn as is likeliest. The numbers lead to what is most likely there today.',
    ),
    h(
      'ol',
      { class: 'section-key' },
      keyed.map(({ belief }) => keyItem(belief)),
    ),
  );
}

function keyItem(belief: SystemBelief): Mark {
  const best = named(belief.materials, 'anywhere', 0.35, 2);
  return h(
    'li',
    {},
    h('a', { href: toEntry('systems', belief.system) }, belief.title),
    h('span', {}, ` ${best.map(inWords).join('; ')}`),
  );
}

function inWords(m: MaterialBelief): string {
  const name = m.title.charAt(0).toLowerCase() + m.title.slice(1);
  return `${name}, ${oddsInWords(m.anywhere)}`;
}

function sectionPart(part: Part): SectionPart {
  return {
    foundation: likeliest(part.foundation, 'crawl'),
    walls: likeliest(part.walls, 'frame'),
    roof: likeliest(part.roof, 'pitched'),
    storeys: part.storeys,
  };
}
