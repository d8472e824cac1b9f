import { geoPath } from 'd3-geo';
import { feature } from 'topojson-client';
import { h, type Mark } from '../markup/h.ts';
import { readAtlas } from '../places/atlas.ts';
import { px } from './figure.ts';
import { type Hatch, hatchDef, hatchFill } from './hatches.ts';

/** Size of the projected atlas (Albers, with Alaska and Hawaii set in). */
const WIDTH = 975;
const HEIGHT = 610;
/** A state takes its letters in the drawing only where it is at least so large (square units). */
const ROOM = 1600;
/** Islands smaller than this are left out, but never the whole of a state. */
const SPECK = 8;

export interface MapState {
  code: string;
  name: string;
  href: string;
  hatch: Hatch;
  /** What the hatch says, for those who do not see it. */
  says: string;
}

type Ring = [number, number][];

/** The states, hatched, each a link to its sheet. Made at build: it costs the reader no script. Its table stands beside
 * it on the page. */
export function stateMap(states: readonly MapState[], id: string, label: string): Mark {
  const atlas = readAtlas('states-albers-10m');
  const byName = new Map(states.map((s) => [s.name, s]));
  const middle = geoPath();
  const shapes = feature(atlas, atlas.objects.states).features.flatMap((shape) => {
    const state = byName.get(shape.properties.name);
    const rings = ringsOf(shape.geometry);
    return state === undefined
      ? []
      : [{ state, rings, at: middle.centroid(shape), room: middle.area(shape) }];
  });
  const hatches = [...new Set(states.map((s) => s.hatch))];
  return h(
    'svg',
    { class: 'figure state-map', viewBox: `0 0 ${WIDTH} ${HEIGHT}`, role: 'group', 'aria-label': label },
    h('defs', {}, ...hatches.map((hatch) => hatchDef(hatch, id))),
    ...shapes.map(({ state, rings }) =>
      h(
        'a',
        { href: state.href, 'aria-label': `${state.name}: ${state.says}` },
        h('path', { d: rings.map(pathOf).join(''), fill: hatchFill(state.hatch, id), class: 'outline' }),
      ),
    ),
    ...shapes
      .filter(({ room }) => room >= ROOM)
      .map(({ state, at: [x, y] }) =>
        h(
          'g',
          { class: 'band-label', 'aria-hidden': 'true', 'pointer-events': 'none' },
          h('rect', { x: px(x - 13), y: px(y - 9), width: 26, height: 18, class: 'label-ground' }),
          h('text', { x: px(x), y: px(y), dy: '0.36em', 'text-anchor': 'middle' }, state.code),
        ),
      ),
  );
}

/** Outer and inner rings in whole units, without the points that rounding makes one, the largest first. */
function ringsOf(geometry: GeoJSON.Geometry): Ring[] {
  const polygons =
    geometry.type === 'Polygon'
      ? [geometry.coordinates]
      : geometry.type === 'MultiPolygon'
        ? geometry.coordinates
        : [];
  const rings = polygons
    .flat()
    .map((ring) => rounded(ring))
    .sort((a, b) => areaOf(b) - areaOf(a));
  return rings.filter((ring, i) => ring.length > 3 && (i === 0 || areaOf(ring) >= SPECK));
}

function rounded(ring: GeoJSON.Position[]): Ring {
  const points: Ring = [];
  for (const [x = 0, y = 0] of ring) {
    const point: [number, number] = [Math.round(x), Math.round(y)];
    const last = points.at(-1);
    if (last === undefined || last[0] !== point[0] || last[1] !== point[1]) points.push(point);
  }
  return points;
}

function areaOf(ring: Ring): number {
  const twice = ring.reduce((sum, [x, y], i) => {
    const [nextX, nextY] = ring[(i + 1) % ring.length] ?? [x, y];
    return sum + x * nextY - nextX * y;
  }, 0);
  return Math.abs(twice) / 2;
}

/** Steps from point to point are shorter than points. */
function pathOf(ring: Ring): string {
  let [x, y] = [0, 0];
  const steps = ring.map(([toX, toY], i) => {
    const step = i === 0 ? `M${toX} ${toY}` : `${toX - x} ${toY - y}`;
    [x, y] = [toX, toY];
    return step;
  });
  return `${steps[0] ?? ''}l${steps.slice(1).join(' ')}Z`;
}
