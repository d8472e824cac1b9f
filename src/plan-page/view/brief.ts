import { oddsInWords } from '../../../planner/condition/odds-words.ts';
import type { MaterialBelief, Plan, Risk, SystemBelief } from '../../../planner/plan-types.ts';
import { type Child, h, type Mark } from '../../markup/h.ts';
import { ASKED_WORDS, BALKS_WORDS, SOON_WORDS, SOONS } from '../../site/words.ts';
import type { PlanWords } from '../words.ts';
import { known, yearsInWords } from './house-words.ts';
import { named } from './odds-list.ts';

const MOST_SYSTEMS = 18;
const MOST_RISKS = { 'settle-first': 8, 'budget-for': 6, 'look-after': 6, 'for-the-record': 4 } as const;
const MOST_QUESTIONS = 14;

/** What a buyer is handed before the visit: houses like this, no address, odds in words alone. */
export function briefView(plan: Plan, words: PlanWords): Mark[] {
  return [
    h('p', { class: 'answer' }, briefOpening(plan, words.place)),
    h(
      'div',
      { class: 'parts' },
      part('What such houses were built with, and what has usually changed', systemsTable(plan, words)),
      part(
        'What goes wrong in them',
        h(
          'p',
          {},
          'Nothing here is a finding. Each line says what is met in houses like it, how often in words, and what it would mean if it is met here.',
        ),
        risksByTime(plan, words),
      ),
      part('What will be looked at', stops(plan)),
      part('What to ask, and which papers', questions(plan, words)),
      part("What an inspection can't see", limits(plan, words)),
    ),
    h(
      'p',
      { class: 'small quiet' },
      `Made from the knowledge base ${plan.base.slice(0, 8)}, as of ${plan.house.asOf}. It is about houses of this age, kind and place, before anyone has looked. What the inspector finds on site takes its place.`,
    ),
  ];
}

export function briefOpening(plan: Plan, stateName: string | null): string {
  const { house } = plan;
  const main = house.parts[0];
  const form = known(house.form);
  const kind =
    form === 'row'
      ? 'row houses'
      : form === 'two-to-four'
        ? 'small houses of two to four dwellings'
        : 'houses';
  const place = stateName === null ? '' : ` in ${stateName}`;
  const built = main?.built.given ?? 'unknown';
  const age = built === 'unknown' ? 'old houses of unknown year' : `${kind} of ${yearsInWords(built)}`;
  const more = house.parts.length > 1 ? ' with later additions' : '';
  const opening = `${age}${more}${place}`;
  return `This sheet is about ${opening}. It says what they were built with, what has usually been changed since, what can go wrong, and what to ask. Nobody has looked at this house yet.`;
}

function part(title: string, ...children: Child[]): Mark {
  return h('section', { class: 'part' }, h('h2', {}, title), children);
}

/** The systems that matter most to this house, in words. */
function systemsTable(plan: Plan, words: PlanWords): Mark {
  const weight = new Map<string, number>();
  for (const r of plan.risks) weight.set(r.system, (weight.get(r.system) ?? 0) + r.priority);
  const main = plan.house.parts[0]?.name;
  const chosen = plan.systems
    .filter((s) => s.present >= 0.5 && s.part === main)
    .sort((a, b) => (weight.get(b.system) ?? 0) - (weight.get(a.system) ?? 0))
    .slice(0, MOST_SYSTEMS);
  return h(
    'table',
    { class: 'pairs brief-systems' },
    h(
      'thead',
      {},
      h(
        'tr',
        {},
        h('th', { scope: 'col' }, 'What'),
        h('th', { scope: 'col' }, 'Usually there today'),
        h('th', { scope: 'col' }, 'Usually replaced by, and what stays'),
      ),
    ),
    h(
      'tbody',
      {},
      chosen.map((s) => systemRow(s, words)),
    ),
  );
}

function systemRow(s: SystemBelief, words: PlanWords): Mark {
  const top = named(s.materials, 'anywhere', 0.2, 3);
  const oldest = [...top].sort(
    (a, b) => (a.installed.hidden?.p50 ?? 9999) - (b.installed.hidden?.p50 ?? 9999),
  )[0];
  const text = oldest === undefined ? undefined : words.materials[oldest.material];
  const changed = [
    inKind(text?.replacedBy) ? renewedInKind(oldest) : text?.replacedBy,
    text?.stays === null || text?.stays === undefined ? null : `Usually stays: ${lower(text.stays)}`,
  ].flatMap((say) => (say === null || say === undefined ? [] : [say]));
  return h(
    'tr',
    {},
    h('th', { scope: 'row' }, s.title),
    h(
      'td',
      { 'data-label': 'Usually there today', colspan: changed.length > 0 ? null : 2 },
      h(
        'ul',
        { class: 'bare' },
        top.map((m) => h('li', {}, m.title, ', ', oddsInWords(m.anywhere))),
      ),
    ),
    changed.length > 0 && h('td', { 'data-label': 'Usually replaced by, and what stays' }, changed.join(' ')),
  );
}

/** The entry says only that the thing gives way to its like. */
function inKind(replacedBy: string | null | undefined): boolean {
  return /^the same\.?$/i.test(replacedBy ?? '');
}

/** What gives way to its like: when the one that is there now was put in, eight times in ten. */
function renewedInKind(material: MaterialBelief | undefined): string {
  const years = material?.installed.reachable ?? material?.installed.hidden ?? null;
  if (years === null) return 'Renewed in kind; ask when.';
  const span = years.p10 === years.p90 ? `of ${years.p50}` : `of ${years.p10} to ${years.p90}`;
  return `Renewed in kind. What is there now is mostly ${span}; ask when.`;
}

/** "a lender, the town and an insurer". */
function inSeries(words: readonly string[]): string {
  return [words.slice(0, -1).join(', '), ...words.slice(-1)].filter((word) => word !== '').join(' and ');
}

function upper(sentence: string): string {
  return sentence.charAt(0).toUpperCase() + sentence.slice(1);
}

function lower(sentence: string): string {
  return sentence.charAt(0).toLowerCase() + sentence.slice(1);
}

function risksByTime(plan: Plan, words: PlanWords): Child[] {
  return SOONS.map((soon) => {
    const seen = new Set<string>();
    const list = plan.risks.filter((r) => {
      if (r.soon !== soon || seen.has(r.failure)) return false;
      seen.add(r.failure);
      return true;
    });
    if (list.length === 0) return null;
    return h(
      'section',
      {},
      h('h3', {}, SOON_WORDS[soon].title, ' ', h('span', { class: 'means' }, SOON_WORDS[soon].means)),
      h(
        'ul',
        { class: 'asks' },
        list.slice(0, MOST_RISKS[soon]).map((r) => riskLine(r, words)),
      ),
    );
  });
}

function riskLine(risk: Risk, words: PlanWords): Mark {
  const text = words.failures[risk.failure];
  const balks = (text?.balks ?? []).map((b) => BALKS_WORDS[b] ?? b);
  return h(
    'li',
    {},
    h('p', { class: 'ask' }, risk.title, h('span', { class: 'quiet' }, `, ${risk.odds}`)),
    text !== undefined && h('p', {}, h('span', { class: 'quiet' }, 'If it is met: '), text.say),
    balks.length > 0 &&
      h(
        'p',
        { class: 'small quiet' },
        `${upper(inSeries(balks))} may balk at this; get it in writing before your deadline.`,
      ),
  );
}

function stops(plan: Plan): Mark {
  const places = new Map<string, Set<string>>();
  for (const stop of plan.walk.stops) {
    const set = places.get(stop.title) ?? new Set<string>();
    for (const check of stop.checks) set.add(check.title);
    places.set(stop.title, set);
  }
  return h(
    'dl',
    { class: 'stays' },
    [...places]
      .filter(([, titles]) => titles.size > 0)
      .map(([place, titles]) =>
        h(
          'div',
          {},
          h('dt', {}, place),
          h('dd', {}, `${[...titles].map((t, i) => (i === 0 ? t : lower(t))).join('; ')}.`),
        ),
      ),
  );
}

function questions(plan: Plan, words: PlanWords): Mark {
  return h(
    'ul',
    { class: 'asks' },
    plan.questions.slice(0, MOST_QUESTIONS).map((q) =>
      h(
        'li',
        {},
        h('p', { class: 'ask' }, q.ask),
        h(
          'p',
          { class: 'small quiet' },
          q.of === 'client' ? 'For you to answer.' : `Ask ${ASKED_WORDS[q.of] ?? q.of}.`,
          q.papers.length > 0 &&
            ` Papers: ${q.papers
              .map((id) => words.papers[id]?.title ?? id)
              .join(', ')
              .toLowerCase()}.`,
        ),
      ),
    ),
  );
}

/** The limits of what will be done, each once. */
function limits(plan: Plan, words: PlanWords): Mark {
  const done = new Set(plan.walk.stops.flatMap((s) => s.checks.map((c) => c.check)));
  const said = new Set([...done].flatMap((id) => words.checks[id]?.limits ?? []));
  return h(
    'div',
    {},
    h(
      'p',
      {},
      'Inspectors look, listen, smell and measure on one day. They open nothing that is fixed, and much of an old house stays out of sight.',
    ),
    h(
      'ul',
      {},
      [...said].slice(0, 16).map((say) => h('li', {}, say)),
    ),
  );
}
