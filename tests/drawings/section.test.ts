import { describe, expect, it } from 'vitest';
import { FOUNDATIONS, ROOFS, WALLS } from '../../knowledge/schema/words.ts';
import { type Callout, houseSection, type Spot } from '../../src/drawings/section.ts';
import type { Mark } from '../../src/markup/h.ts';
import { toHtml } from '../../src/markup/html.ts';

const SPOTS: Spot[] = [
  'roof',
  'chimney',
  'attic',
  'wall',
  'service',
  'window',
  'stack',
  'floor',
  'under',
  'plant',
  'ground',
];
const callouts = SPOTS.map((spot, i): Callout => ({ number: i + 1, spot }));

describe('the house in section', () => {
  for (const foundation of FOUNDATIONS)
    for (const roof of ROOFS)
      for (const storeys of [1, 2, 3])
        it(`${foundation}, ${roof} roof, ${storeys} storeys: every mark is in the sheet and no two cover each other`, () => {
          for (const walls of WALLS) {
            const part = { foundation, walls, roof, storeys };
            const drawing = houseSection([part, { ...part, storeys: 1 }], callouts, 's', 'A house');
            expect(toHtml(drawing)).not.toMatch(/NaN|undefined|Infinity/);
            const [, top = 0, width = 0, height = 0] = String(drawing.attrs.viewBox).split(' ').map(Number);
            const bubbles = find(drawing, 'bubble').map((m) => ({
              x: Number(m.attrs.cx),
              y: Number(m.attrs.cy),
            }));
            expect(bubbles.length).toBe(SPOTS.length);
            for (const [i, a] of bubbles.entries()) {
              expect(a.x).toBeGreaterThanOrEqual(12);
              expect(a.x).toBeLessThanOrEqual(width - 12);
              expect(a.y).toBeGreaterThanOrEqual(top + 12);
              expect(a.y).toBeLessThanOrEqual(top + height - 12);
              for (const b of bubbles.slice(i + 1))
                expect(Math.hypot(a.x - b.x, a.y - b.y)).toBeGreaterThan(25);
            }
          }
        });

  it('draws up to three parts', () => {
    const part = { foundation: 'slab', walls: 'frame', roof: 'pitched', storeys: 1 } as const;
    const count = (n: number): number =>
      find(houseSection(Array(n).fill(part), [], 's', 'A house'), 'profile').length;
    expect(count(2)).toBeGreaterThan(count(1));
    expect(count(4)).toBe(count(3));
  });
});

function find(mark: Mark, cls: string): Mark[] {
  const here = String(mark.attrs.class ?? '')
    .split(' ')
    .includes(cls)
    ? [mark]
    : [];
  return [...here, ...mark.children.flatMap((child) => (typeof child === 'string' ? [] : find(child, cls)))];
}
