import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { HouseInput } from '../../planner/house/house.ts';
import { planHouse, resolveHouse } from '../../planner/index.ts';
import type { PlanReply } from '../../src/plan-page/protocol.ts';
import { compactBase } from '../../src/site/compact.ts';
import { base } from '../../src/site/knowledge.ts';
import { openSite, type Site, watch } from './site.ts';

let site: Site;
beforeAll(async () => {
  site = await openSite();
});
afterAll(() => site.close());

const HOUSES: [string, HouseInput][] = [
  [
    'a frame house of 1913 over a crawl space',
    {
      asOf: 2026,
      place: 'KY',
      parts: [{ built: 1913, foundation: 'crawl', walls: 'frame' }],
      visit: { minutes: 240 },
    },
  ],
  [
    'a brick row house of the 1880s with an ell, two people',
    {
      asOf: 2026,
      place: 'PA',
      form: 'row',
      parts: [
        {
          name: 'main block',
          built: '1880s',
          foundation: 'basement-stone',
          walls: 'brick',
          roof: 'flat',
          storeys: 3,
        },
        { name: 'ell', built: 1925, foundation: 'basement-brick', walls: 'brick', storeys: 2 },
      ],
      clues: [{ id: 'porcelain-knobs-seen' }],
      client: ['children'],
      visit: { minutes: 300, team: 2 },
    },
  ],
  [
    'a slab house of 1956 with little known',
    { asOf: 2026, place: 'CA', parts: [{ built: 1956, foundation: 'slab' }], visit: { minutes: 150 } },
  ],
];

describe('the same bytes in Node and in Chromium', () => {
  it.each(HOUSES)('%s', async (_, input) => {
    const resolved = resolveHouse(base, input);
    if ('problems' in resolved) throw new Error(JSON.stringify(resolved.problems));
    const inNode = JSON.stringify(planHouse(compactBase(base), resolved.house, input));

    const { page, close } = await watch(site);
    await page.addInitScript(() => {
      // The page's own worker is asked, so what is compared is what people get.
      const Hired = window.Worker;
      const hired: Worker[] = [];
      Object.assign(window, {
        hired,
        Worker: class extends Hired {
          constructor(url: string | URL, options?: WorkerOptions) {
            super(url, options);
            hired.push(this);
          }
        },
      });
    });
    await page.goto(`${site.url}/plan/`, { waitUntil: 'networkidle' });
    const inBrowser = await page.evaluate(async (house): Promise<string> => {
      const worker: Worker = Object(window).hired[0];
      const reply = new Promise<PlanReply>((done) =>
        worker.addEventListener(
          'message',
          ({ data }: MessageEvent<PlanReply>) => data.id === -1 && done(data),
        ),
      );
      worker.postMessage({ id: -1, base: new URL('/base.json', location.href).href, input: house });
      const answer = await reply;
      return answer.kind === 'plan' ? JSON.stringify(answer.plan) : JSON.stringify(answer);
    }, input);
    expect(inBrowser.length).toBeGreaterThan(10_000);
    expect(inBrowser).toBe(inNode);
    await close();
  });
});
