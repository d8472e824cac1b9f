import { describe, expect, it } from 'vitest';
import { base, entry, proseOf } from './base.ts';

const check = (id: string) => entry(base.checks, id);
const failure = (id: string) => entry(base.failures, id);
const clue = (id: string) => entry(base.clues, id);
const chain = (id: string) => entry(base.chains, id);

/** How many times likelier or less likely a clue is with one material than with others. */
function ratio(id: string, portion: 'reachable' | 'hidden', material: string): number {
  const reads = clue(id).reads[portion];
  if (reads === undefined) return 1;
  const other = reads.else ?? 1;
  return (reads[material] ?? other) / other;
}

describe('what the trade knows', () => {
  it('pokes wood before calling rot: hard wood with flaking paint is a paint job', () => {
    expect(proseOf(check('crawl-framing-look').steps)).toMatch(/poke.*before you call it rot/i);
    const soft = chain('soft-flaking-wood');
    expect(soft.suspect.map((s) => s.failure)).toEqual(
      expect.arrayContaining(['failed-exterior-paint', 'rotted-window-sills']),
    );
    expect(proseOf(soft.next)).toMatch(/resists: paint job/i);
    expect(proseOf(check('probe-sills').cannotTell)).toMatch(/early rot/i);
  });

  it('takes an infrared picture for surface temperature, never for moisture', () => {
    const scan = check('infrared-scan');
    expect(scan.cannotTell[0]).toMatch(/^Moisture as such; it shows surface temperature/);
    expect(proseOf(scan.never)).toMatch(/without the meter/);
    expect(proseOf(scan.steps)).toMatch(/warm first/);
    expect(proseOf(scan.steps)).toMatch(/dry place/);
    expect(scan.waits.map((w) => w.after)).toContain('run-water');
    for (const find of scan.finds) expect(find.sensitivity).toBeLessThan(0.75);
    const cold = chain('cold-patch-on-ceiling').next.map((n) => n.check);
    expect(cold.indexOf('run-water')).toBeLessThan(cold.indexOf('infrared-scan'));
    expect(cold).toContain('damp-meter');
  });

  it('reads a plastic cleanout as work on the old line, usually part of it', () => {
    const cap = clue('plastic-cleanout-cap');
    expect(cap.reads.hidden).toBeUndefined();
    expect(cap.failures['slow-main-drain']).toBeGreaterThan(1);
    expect(cap.caution).toMatch(/rodding the old pipe/);
    expect(proseOf(chain('plastic-cleanout-outside').stop)).toMatch(/scope and warranty/);
  });

  it('takes a new panel for good news about the service and little about the branches', () => {
    expect(ratio('new-cable-at-panel', 'hidden', 'plastic-cable')).toBeLessThan(2);
    expect(chain('newer-panel-old-house').cannotTell).toMatch(/good news about the service/);
  });

  it('follows new pipe in the crawl space to the wall, where it often ends', () => {
    expect(proseOf(chain('new-pipe-in-crawl').suspect)).toMatch(/risers in the wall are often still steel/);
  });

  it('removes nothing fixed without leave; a panel made to unscrew is not damage', () => {
    const panel = check('open-panel');
    expect(panel.permission?.of).toBe('owner');
    expect(panel.body).toMatch(/made to unscrew is not damage/);
    for (const c of base.checks)
      for (const step of c.steps)
        expect(step).not.toMatch(/\b(pry|tear|cut open|pull up|rip|lift the carpet)\b/i);
  });

  it('judges uneven floors only after the supports were seen from below', () => {
    expect(check('pier-look').body).toMatch(/Judge sloping floors after this look,\s+never before/);
    const floor = chain('uneven-floor').next.map((n) => n.check);
    expect(floor.indexOf('pier-look')).toBeLessThan(floor.indexOf('floor-level'));
  });

  it('puts shims over a sound, plumb pier; a leaning or cracked pier is a repair', () => {
    const shims = failure('shims-on-leaning-pier');
    expect(proseOf(shims.rivals)).toMatch(/sound, plumb pier/);
    expect(shims.soundRepair).toMatch(/pier rebuilt plumb/);
    expect(shims.soundRepair).not.toMatch(/re-?shim/i);
    expect(shims.say).toMatch(/rebuilt and not wedged again/);
    expect(failure('leaning-pier').soundRepair).not.toMatch(/re-?shim/i);
    expect(proseOf(chain('shims-on-pier').stop)).toMatch(/Do not call it a matter of new shims/);
  });

  it('puts old headroom on the record and calls a missing or loose rail a fall', () => {
    expect(failure('steep-winding-stair').soon).toBe('for-the-record');
    for (const id of ['missing-handrail', 'loose-handrail', 'wide-baluster-gaps', 'open-stair-edge']) {
      expect(failure(id).lifeSafety).toBe(true);
      expect(failure(id).stakes.people).toBeGreaterThanOrEqual(2);
      expect(failure(id).soon).not.toBe('for-the-record');
    }
    expect(check('stair-and-rail-check').scope).toBe('life-safety');
  });

  it('takes new cladding as neutral: old layers are presumed, water behind is not ruled out', () => {
    for (const id of ['vinyl-siding-seen', 'metal-siding-seen']) {
      expect(clue(id).reads.hidden).toBeUndefined();
      expect(clue(id).caution).toMatch(/presume the older layers/);
      for (const factor of Object.values(clue(id).failures)) expect(factor).toBeGreaterThanOrEqual(1);
    }
    const siding = chain('new-siding-on-old-house');
    expect(proseOf(siding.next)).toMatch(/Head flashing and joints seen.*good for water/);
    expect(siding.cannotTell).toMatch(/neither good nor bad news/);
  });

  it('closes a crawl space for any standing water with wiring or power not verified', () => {
    const gate = check('enter-crawl').gate.find((g) => g.stopIf.includes('standing water'));
    expect(gate?.stopIf).toMatch(/^any standing water/);
    expect(gate?.stopIf).toMatch(/not verified/);
    expect(gate?.do).toMatch(/stay out/);
    for (const c of base.checks.filter((c) => c.stop === 'crawl' && c.id !== 'enter-crawl'))
      expect(c.needs, c.id).toContain('enter-crawl');
    expect(chain('water-in-crawl').caution).toMatch(/Nobody enters/);
  });

  it('follows a soft wavy baseboard beside a bath to what is below', () => {
    const soft = chain('soft-baseboard-by-bath');
    expect(soft.suspect.map((s) => s.failure)).toEqual(
      expect.arrayContaining(['shower-pan-leak', 'rotted-floor-at-toilet', 'subterranean-termite-signs']),
    );
    expect(soft.next.map((n) => n.check)).toContain('look-below-baths');
    expect(proseOf(soft.suspect)).toMatch(/in the North, read it as decay first/);
    expect(failure('subterranean-termite-signs').place.map((p) => p.factor)).toContain('termites');
  });

  it('treats a clogged drain beside the house as upkeep before foundation trouble', () => {
    const drain = failure('clogged-foundation-drain');
    expect(['look-after', 'budget-for']).toContain(drain.soon);
    expect(drain.stakes.structure).toBeLessThanOrEqual(2);
    expect(proseOf(chain('water-in-crawl').suspect)).toMatch(/upkeep before it is foundation trouble/);
  });

  it('sends lifted flashing to the same spot inside, best after rain', () => {
    const lifted = chain('lifted-flashing-at-wall');
    const attic = lifted.next.find((n) => n.check === 'attic-roof-boards');
    expect(attic?.means).toMatch(/same spot inside, best a day after rain/);
  });

  it('takes no insulation under the floor as usual for the age', () => {
    expect(check('crawl-framing-look').body).toMatch(/No insulation under the floor is usual in old houses/);
  });

  it('has a gate on everything that starts something in the house', () => {
    const starters = base.checks.filter((c) => c.runs !== undefined);
    expect(starters.length).toBeGreaterThanOrEqual(3);
    for (const c of starters) expect(c.gate.length, c.id).toBeGreaterThan(0);
  });

  it('says whom to tell now, and what, for gas, fumes, live metal, ceilings, voids and alarms', () => {
    const now = [
      'gas-leak',
      'exhaust-spillage',
      'energized-metal-siding',
      'plaster-ceiling-letting-go',
      'buried-void-cover',
      'missing-smoke-alarms',
      'missing-co-alarm',
    ];
    for (const id of now) {
      expect(failure(id).tellNow?.whom, id).toBeTruthy();
      expect(failure(id).tellNow?.say.length, id).toBeGreaterThan(30);
    }
  });

  it('calls one tool by one word', () => {
    const tools = new Set([
      ...base.checks.flatMap((c) => c.tools),
      ...base.stops.flatMap((s) => s.openingTools),
    ]);
    const otherThings = [
      ['step ladder', 'ladder stabiliser', 'non-conductive ladder'],
      ['four-foot level', 'water level', 'level'],
      ['infrared thermometer', 'thermometer'],
      ['infrared camera', 'camera'],
      ['insulated screwdriver', 'screwdriver'],
      ['arc-rated gloves', 'gloves'],
      ['seal tape', 'tape'],
    ];
    for (const tool of tools) {
      expect(tool).not.toMatch(/ or /);
      for (const longer of tools)
        if (longer.endsWith(` ${tool}`))
          expect(
            otherThings.some((same) => same.includes(longer) && same.includes(tool)),
            `"${longer}" and "${tool}"`,
          ).toBe(true);
    }
  });
});
