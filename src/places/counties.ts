import { join } from 'node:path';
import { geoCentroid, geoContains } from 'd3-geo';
import { feature } from 'topojson-client';
import type { GeometryCollection, Topology } from 'topojson-specification';
import { numberOf, readTable, textOf } from '../csv/read-table.ts';
import { readAtlas } from './atlas.ts';
import { carriedIndex, distanceKm, type Point, type Station } from './nearest-stations.ts';
import { zoneOf } from './states.ts';

/** A county with what is known by county. */
export interface County extends Point {
  fips: string;
  state: string;
  name: string;
  /** Energy-code climate zone with its moisture letter. */
  zone: string;
  /** EPA radon zone, 1 highest. */
  radon: number;
  /** Housing units, survey of 2016: the weight of a county within a state. */
  units: number;
  /** Decay index carried to the middle of the county. */
  decay: number;
  contains(point: Point): boolean;
}

/** Counties with zone, radon zone, houses and the decay index carried from nearby stations. */
export function readCounties(folder: string, stations: readonly Station[]): County[] {
  const radon = new Map(
    readTable(join(folder, 'radon-counties.csv')).map((row) => [
      textOf(row, 'fips'),
      numberOf(row, 'epa_radon_zone'),
    ]),
  );
  const shapes = countyShapes();
  return readTable(join(folder, 'iecc-counties.csv')).flatMap((row): County[] => {
    const fips = textOf(row, 'fips');
    const shape = shapes.get(fips);
    const radonZone = radon.get(fips);
    if (shape === undefined || radonZone === undefined) {
      console.warn(
        `county ${fips} ${textOf(row, 'county')}: no ${shape === undefined ? 'outline' : 'radon zone'}`,
      );
      return [];
    }
    const [lon, lat] = geoCentroid(shape);
    return [
      {
        fips,
        state: textOf(row, 'state'),
        name: textOf(row, 'county'),
        zone: zoneOf(`${textOf(row, 'iecc_zone')}${textOf(row, 'moisture')}`, textOf(row, 'state')),
        radon: radonZone,
        units: numberOf(row, 'housing_units_acs2016'),
        decay: carriedIndex({ lat, lon }, stations),
        lat,
        lon,
        contains: (point) => geoContains(shape, [point.lon, point.lat]),
      },
    ];
  });
}

function countyShapes(): Map<string, ReturnType<typeof shapesOf>[number]> {
  return new Map(shapesOf(readAtlas('counties-10m')).map((shape) => [String(shape.id), shape]));
}

function shapesOf(atlas: Topology<{ counties: GeometryCollection }>) {
  return feature(atlas, atlas.objects.counties).features;
}

/** Counties of a ZIP prefix: the one that its centroid lies in, and those of its state whose own middle lies nearer to
 * this centroid than to any other of the state. A prefix has no published outline; this stands in for one. */
export function countiesOfZips(
  zips: readonly (Point & { zip3: string; state: string })[],
  counties: readonly County[],
): Map<string, County[]> {
  const found = new Map<string, County[]>(zips.map(({ zip3 }) => [zip3, []]));
  for (const county of counties) {
    const near = nearestOf(
      county,
      zips.filter((z) => z.state === county.state),
    );
    if (near !== undefined) found.get(near.zip3)?.push(county);
  }
  for (const zip of zips) {
    const own = counties.filter((c) => c.state === zip.state);
    const around = own.find((c) => c.contains(zip)) ?? nearestOf(zip, own);
    const list = found.get(zip.zip3);
    if (around !== undefined && list !== undefined && !list.includes(around)) list.push(around);
  }
  return found;
}

function nearestOf<T extends Point>(at: Point, among: readonly T[]): T | undefined {
  return among.reduce<T | undefined>(
    (best, one) => (best === undefined || distanceKm(at, one) < distanceKm(at, best) ? one : best),
    undefined,
  );
}

/** The value with the most houses behind it. */
export function dominant(counties: readonly County[], value: (county: County) => string): string {
  const units = new Map<string, number>();
  for (const c of counties) units.set(value(c), (units.get(value(c)) ?? 0) + c.units);
  return [...units].sort(([a, x], [b, y]) => y - x || (a < b ? -1 : 1))[0]?.[0] ?? '';
}

/** 1 where half of the houses are in zone 1; else 2 where half are in zones 1 and 2; else 3. */
export function radonOf(counties: readonly County[]): number {
  const all = counties.reduce((sum, c) => sum + c.units, 0);
  const upTo = (zone: number): number =>
    counties.reduce((sum, c) => sum + (c.radon <= zone ? c.units : 0), 0);
  if (upTo(1) >= all / 2) return 1;
  return upTo(2) >= all / 2 ? 2 : 3;
}

/** Decay index that a share `q` of the houses lie below. */
export function decayAt(counties: readonly County[], q: number): number {
  const sorted = [...counties].sort((a, b) => a.decay - b.decay || (a.fips < b.fips ? -1 : 1));
  const all = sorted.reduce((sum, c) => sum + c.units, 0);
  let below = 0;
  for (const c of sorted) {
    below += c.units;
    if (below >= q * all) return c.decay;
  }
  return sorted.at(-1)?.decay ?? 0;
}
