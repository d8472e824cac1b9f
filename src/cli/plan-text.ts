import type { Base } from '../../knowledge/schema/base.ts';
import { oddsInWords } from '../../planner/condition/odds-words.ts';
import type { Odds, Part } from '../../planner/house/house.ts';
import type {
  Contradiction,
  MaterialBelief,
  Plan,
  Risk,
  RisksSurvive,
  SystemBelief,
} from '../../planner/plan-types.ts';
import { walkText } from './walk-text.ts';
import { lowerFirst, wrap } from './words.ts';

const WIDTH = 100;
/** Materials less likely than this are left to `--json`. */
const WORTH_NAMING = 0.12;
const RISKS_SHOWN = 15;
const QUESTIONS_SHOWN = 12;
const LOOKS_SHOWN = 8;

/** A plan to read at a desk: what is in the house, what fails, the walk, what to ask. Odds stand in words;
 * the figures are in `--json`. */
export function planText(base: Base, plan: Plan): string {
  const lines = [
    ...headText(plan),
    ...section(
      'Cautions',
      plan.cautions.flatMap((c) => item(`${c.about}: ${c.say}`)),
    ),
    ...section('Look again', plan.contradictions.flatMap(contradictionText)),
    ...section('What it is likely to hold', systemsText(plan)),
    ...section('What matters most', [
      ...plan.risks.slice(0, RISKS_SHOWN).flatMap((risk) => riskText(risk)),
      ...survivesText(plan.risksSurvive),
    ]),
    ...walkText(base, plan.walk),
    ...section('Ask', questionsText(base, plan)),
    ...section(
      'Look for these before the visit',
      plan.looks
        .slice(0, LOOKS_SHOWN)
        .flatMap((look) => item(`${look.say} (${look.where.join(', ')}; ${look.clue})`)),
    ),
    ...leftOutText(plan),
  ];
  return `${lines.join('\n')}\n`;
}

export function section(title: string, lines: string[]): string[] {
  return lines.length === 0 ? [] : ['', title.toUpperCase(), ...lines];
}

export function item(text: string): string[] {
  return wrap(text, WIDTH, '- ', '  ');
}

function headText(plan: Plan): string[] {
  const { house } = plan;
  const parts = house.parts.map((part) => partText(part, house.parts.length > 1));
  const place = house.place.state === null ? 'place unknown' : `place ${house.place.given}`;
  const visit = `${house.visit.minutes} minutes, ${people(house.visit)}`;
  return [
    ...parts.flatMap((part) => wrap(part, WIDTH)),
    `${place}, as of ${house.asOf}; visit of ${visit}; base ${plan.base}`,
  ];
}

function partText(part: Part, named: boolean): string {
  const years = part.built.years.length === 1 ? `${part.built.years[0]?.value}` : part.built.given;
  const built = years === 'unknown' ? 'build year unknown' : `built ${years}`;
  const foundation = `foundation ${oddsText(part.foundation)}`;
  const storeys = part.storeys === 1 ? 'one storey' : `${part.storeys} storeys`;
  const text = `${built}, ${foundation}, walls ${oddsText(part.walls)}, ${storeys}`;
  return named ? `${part.name}: ${text}` : `House ${text}`;
}

function oddsText(odds: Odds<string>): string {
  const [best] = [...odds].sort((a, b) => b.p - a.p);
  if (best === undefined) return 'unknown';
  if (best.p > 0.999) return best.value;
  return best.p < 0.5 ? 'not given' : `not given (${oddsInWords(best.p)} ${best.value})`;
}

function systemsText(plan: Plan): string[] {
  const several = plan.house.parts.length > 1;
  return plan.systems.filter((s) => s.present >= WORTH_NAMING).flatMap((s) => systemText(s, several));
}

function systemText(system: SystemBelief, several: boolean): string[] {
  const named = system.materials
    .filter((m) => inHouse(m) >= WORTH_NAMING)
    .sort((a, b) => inHouse(b) - inHouse(a))
    .slice(0, 3);
  const likely = named.map(materialText);
  const name = several ? `${system.title}, ${system.part}` : system.title;
  const without = named.some((m) => m.material === 'none');
  const title = system.present < 0.5 && !without ? `${name}, if it has one` : name;
  const partly = system.replaced?.partly ?? 0;
  if (likely.length > 0 && partly >= WORTH_NAMING)
    likely.push(`some of it new, some not (${oddsInWords(partly)})`);
  return likely.length === 0 ? [] : wrap(`${title}: ${likely.join('; ')}`, WIDTH, '- ', '  ');
}

/** Of several dwellings the odds that at least one has it. */
function inHouse(m: MaterialBelief): number {
  return m.units?.atLeastOne ?? m.anywhere;
}

function materialText(m: MaterialBelief): string {
  const year = m.installed.hidden ?? m.installed.reachable;
  const when = year === null || m.material === 'none' ? '' : `, from about ${year.p50}`;
  const where = m.hidden - m.reachable > 0.15 ? ', mostly out of sight' : '';
  const odds = oddsInWords(inHouse(m));
  const units = inOne(odds, m.units === undefined ? odds : oddsInWords(m.anywhere));
  return `${m.material === 'none' ? 'none' : lowerFirst(m.title)} (${odds}${units}${when}${where})`;
}

function contradictionText({ say, leastSurprising }: Contradiction): string[] {
  return item(leastSurprising === null ? say : `${say} ${leastSurprising.say}`);
}

function survivesText(survives: RisksSurvive | null): string[] {
  if (survives === null) return [];
  const { first, same, stay } = survives;
  return wrap(
    `With every figure drawn anew within its range, the first ${first} of this list are the same ones in ${Math.round(100 * same)} draws of 100; on average ${stay.toFixed(1)} of them stay.`,
    WIDTH,
  );
}

const SOON: Record<Risk['soon'], string> = {
  'settle-first': 'settle first',
  'budget-for': 'budget for',
  'look-after': 'look after',
  'for-the-record': 'for the record',
};

function riskText(risk: Risk): string[] {
  const guard = risk.lifeSafety ? ', guards life' : '';
  const grade = risk.grade === 'memory' ? 'from memory' : risk.grade;
  return item(
    `${risk.title}: ${risk.odds}${inOne(risk.odds, risk.units === undefined ? risk.odds : oddsInWords(risk.units.anyOne))} (${SOON[risk.soon]}${guard}; ${grade}; ${risk.failure})`,
  );
}

/** Of several dwellings the odds are those of at least one; the odds in any one are told where the words differ. */
function inOne(atLeastOne: string, anyOne: string): string {
  return anyOne === atLeastOne ? '' : ` in at least one dwelling, ${anyOne} in any one`;
}

function questionsText(base: Base, plan: Plan): string[] {
  const papers = new Map(base.papers.map((paper) => [paper.id, paper.title.toLowerCase()]));
  return plan.questions.slice(0, QUESTIONS_SHOWN).flatMap((question) => {
    const asked = question.papers.map((id) => papers.get(id) ?? id).join(', ');
    return [
      ...item(`${question.of}: ${question.ask}`),
      ...(asked === '' ? [] : wrap(`papers: ${asked}`, WIDTH, '  ')),
    ];
  });
}

/** The inspector's own: never for the client's record. Checks left out for the same reason stand together. */
function leftOutText(plan: Plan): string[] {
  const byReason = new Map<string, string[]>();
  for (const { title, minutes, why } of plan.walk.leftOut) {
    const checks = byReason.get(why) ?? [];
    checks.push(`${title} (${minutes} min)`);
    byReason.set(why, checks);
  }
  const lines = [...byReason].flatMap(([why, checks]) => [
    ...wrap(`${why}:`, WIDTH),
    ...checks.flatMap(item),
  ]);
  return section('Private: left out of this walk', lines);
}

function people({ team, trainees }: Plan['house']['visit']): string {
  if (team === 1) return 'one person';
  return trainees === 0 ? `${team} people` : `${team} people, ${trainees} in training`;
}
