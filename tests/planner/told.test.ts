import { describe, expect, it } from 'vitest';
import { indexBase } from '../../planner/base-index.ts';
import { believe } from '../../planner/belief/believe.ts';
import { dateHouse } from '../../planner/belief/date-house.ts';
import type { ClueInput, HouseInput } from '../../planner/house/house.ts';
import { planHouse } from '../../planner/index.ts';
import type { Plan } from '../../planner/plan-types.ts';
import { base, resolved } from './any-house.ts';

const house = (clues: ClueInput[], more: Partial<HouseInput> = {}): HouseInput => ({
  asOf: 2026,
  place: 'OH',
  parts: [{ built: 1908, foundation: 'basement-stone', walls: 'frame' }],
  clues,
  ...more,
});

function plan(clues: ClueInput[], more: Partial<HouseInput> = {}): Plan {
  return planHouse(base, resolved(house(clues, more)));
}

function odds(of: Plan, system: string, materials: string[]): number {
  const found = of.systems.find((s) => s.system === system);
  return (found?.materials ?? [])
    .filter((m) => materials.includes(m.material))
    .reduce((sum, m) => sum + m.anywhere, 0);
}

const present = (of: Plan, system: string): number =>
  of.systems.find((s) => s.system === system)?.present ?? 0;

const BOILERS = ['hot-water-boiler', 'steam-boiler', 'coal-boiler'];

describe('a sight that tells of several systems', () => {
  it('moves the heating plant where radiators stand', () => {
    expect(odds(plan([]), 'heating-plant', BOILERS)).toBeLessThan(0.3);
    expect(odds(plan([{ id: 'cast-iron-radiators-seen' }]), 'heating-plant', BOILERS)).toBeGreaterThan(0.6);
  });

  it('moves what carries the heat where a boiler or a furnace was told of', () => {
    const ducts = ['sheet-metal-ducts', 'flexible-ducts', 'gravity-ducts', 'slab-ducts'];
    const pipes = ['steam-radiators', 'gravity-hot-water', 'hot-water-baseboard', 'radiant-slab'];
    expect(odds(plan([{ id: 'hot-water-or-steam-said' }]), 'heat-distribution', pipes)).toBeGreaterThan(0.7);
    expect(odds(plan([{ id: 'ducted-furnace-said' }]), 'heat-distribution', ducts)).toBeGreaterThan(0.85);
  });

  it('tells of the build year and the owners but once', () => {
    const index = indexBase(base);
    const told = resolved(house([{ id: 'cast-iron-radiators-seen' }], { parts: [{}] }));
    expect(told.clues.filter((c) => c.impliedBy !== undefined).length).toBeGreaterThan(1);
    const alone = { ...told, clues: told.clues.filter((c) => c.impliedBy === undefined) };
    expect(dateHouse(index, told, null).decades).toEqual(dateHouse(index, alone, null).decades);
    const years = (of: typeof told) =>
      believe(index, of).find((s) => s.system.id === 'porches-and-decks')?.years ?? [];
    expect(years(told).length).toBeGreaterThan(1);
    expect(years(told)).toEqual(years(alone));
  });

  it('moves what carries the heat where the boiler has a gauge glass', () => {
    const seen = plan([{ id: 'gauge-glass-seen' }]);
    expect(odds(seen, 'heat-distribution', ['steam-radiators'])).toBeGreaterThan(0.5);
  });

  it('moves the water service where the entry is plastic', () => {
    const seen = plan([{ id: 'plastic-water-entry' }]);
    expect(odds(seen, 'service-line', ['plastic-service-line'])).toBeGreaterThan(0.7);
  });

  it('moves the insulation where plugs were told as filled walls', () => {
    const filled = plan([{ id: 'insulation-plugs-in-siding' }]);
    expect(odds(filled, 'insulation', ['no-insulation'])).toBeLessThan(
      odds(plan([]), 'insulation', ['no-insulation']) - 0.2,
    );
  });

  it('leaves what was told in so many words', () => {
    const clues = [{ id: 'cast-iron-radiators-seen' }, { id: 'not:radiators-with-pipes' }];
    const told = resolved(house(clues)).clues.map((c) => c.id);
    expect(told).not.toContain('radiators-with-pipes');
    expect(new Set(told).size).toBe(told.length);
  });

  it('implies nothing where it was not met', () => {
    expect(resolved(house([{ id: 'not:cast-iron-radiators-seen' }])).clues).toHaveLength(1);
  });

  it('stays in its part and its dwelling', () => {
    const two = house([{ id: 'cast-iron-radiators-seen', unit: 2 }], { units: 2, form: 'two-to-four' });
    expect(resolved(two).clues.find((c) => c.id === 'radiators-with-pipes')?.unit).toBe(2);
  });
});

describe('a clue that speaks of an input', () => {
  it('makes a well likely where its casing stands, unless town water was given', () => {
    expect(present(plan([]), 'well')).toBeLessThan(0.2);
    expect(present(plan([{ id: 'casing-above-ground' }]), 'well')).toBeGreaterThan(0.8);
    expect(present(plan([{ id: 'casing-above-ground' }], { water: 'town' }), 'well')).toBe(0);
  });

  it('makes a septic system likely where it was pumped, and unlikely where a video reached the main', () => {
    expect(present(plan([{ id: 'pumped-more-than-yearly' }]), 'septic')).toBeGreaterThan(0.9);
    expect(present(plan([{ id: 'sewer-video-no-defects' }]), 'septic')).toBeLessThan(0.02);
  });

  it('keeps odds that add to 1', () => {
    const { water, fuel, parts } = resolved(
      house([{ id: 'casing-above-ground' }, { id: 'heat-is-oil-said' }, { id: 'low-slope-roof-seen' }]),
    );
    for (const list of [water, fuel, ...parts.map((p) => p.roof)])
      expect(list.reduce((sum, o) => sum + o.p, 0)).toBeCloseTo(1, 12);
    expect(parts[0]?.roof.find((o) => o.value === 'flat')?.p).toBeGreaterThan(0.2);
  });
});

describe('what a house of its shape has', () => {
  const ranch = (foundation: 'slab' | 'basement-block'): Plan =>
    plan([], { place: 'NM', parts: [{ built: 1952, foundation, storeys: 1, roof: 'flat' }] });

  it('has no stair and no sump in one storey on a slab, and a stair over a basement', () => {
    expect(present(ranch('slab'), 'stairs-and-rails')).toBe(0);
    expect(present(ranch('basement-block'), 'stairs-and-rails')).toBe(1);
    expect(odds(ranch('slab'), 'site-drainage', ['inside-drain-and-sump'])).toBeLessThan(0.01);
  });

  it('has no shingles and no ridge on a flat roof', () => {
    expect(odds(ranch('slab'), 'roof-covering', ['asphalt-shingle', 'slate-roof'])).toBeLessThan(0.01);
    expect(odds(ranch('slab'), 'roof-framing', ['low-slope-joists'])).toBeGreaterThan(0.99);
  });

  it('takes the panel for split-bus where its label shows no single main', () => {
    const seen = plan([{ id: 'split-bus-label' }], { parts: [{ built: 1952 }] });
    expect(odds(seen, 'service-equipment', ['split-bus-panel'])).toBeGreaterThan(0.4);
  });

  it('takes pulleys beside a paper of new windows as some of each', () => {
    const seen = plan([{ id: 'pulleys-in-jambs' }, { id: 'windows-replaced-said', year: 2012 }]);
    const wood = seen.systems
      .find((s) => s.system === 'windows')
      ?.materials.find((m) => m.material === 'wood-sash');
    expect(wood?.installed.hidden?.p50).toBeLessThan(1990);
  });
});

describe('looks', () => {
  it('do not send anybody back to a record that was read', () => {
    const looks = plan([{ id: 'utility-says-lead' }]).looks.map((l) => l.clue);
    expect(looks.filter((id) => id.startsWith('utility-says'))).toEqual([]);
  });
});

describe('questions', () => {
  const asked = (built: number, foundation: 'slab' | 'basement-block'): string[] =>
    plan([], { place: 'NM', parts: [{ built, foundation, storeys: 1 }] }).questions.map((q) => q.question);

  it('ask of leaks below a bath only where there is something below one', () => {
    expect(asked(1952, 'slab')).not.toContain('leaks-below-baths');
    expect(asked(1952, 'basement-block')).toContain('leaks-below-baths');
  });

  it('speak to the one they are put to: a client is no insurer', () => {
    for (const { id, of, ask } of base.questions.filter((q) => q.of === 'client'))
      expect(ask, `${id}, to the ${of}`).not.toMatch(/^(Will|Would) you (insure|lend|write)/);
  });

  it('tell of filled attics beside a bare attic floor that both cannot be', () => {
    const both = plan([{ id: 'bare-attic-floor' }, { id: 'attic-insulated-over-wiring' }]);
    expect(both.contradictions.map((c) => [...c.clues].sort())).toContainEqual([
      'bare-attic-floor',
      'level-fill-on-attic-floor',
    ]);
  });
});

describe('a year older than the building', () => {
  const about = (year: number, built: string): string[] =>
    plan([{ id: 'rewired', year }], { parts: [{ built }] }).cautions.map((c) => c.about);

  it('is told as a caution, for one of the years is wrong', () => {
    expect(about(1890, '1908')).toContain('paper');
    expect(about(1950, '1908')).not.toContain('paper');
    expect(about(1905, '1900-1910')).not.toContain('paper');
  });
});
