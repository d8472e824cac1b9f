import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { decayBand, decayIndex } from '../../planner/places/decay-index.ts';
import { numberOf, readTable, textOf } from '../../src/csv/read-table.ts';
import {
  carriedIndex,
  distanceKm,
  nearestStations,
  type Point,
  type Station,
} from '../../src/places/nearest-stations.ts';
import { readStations } from '../../src/places/normals.ts';
import { base, houseOf } from './base.ts';

const stations = readStations(join(import.meta.dirname, '../../knowledge/places/normals.csv'));
const zips = readTable(join(import.meta.dirname, '../tables/zip-centroids.csv')).map((row) => ({
  zip3: textOf(row, 'zip3'),
  state: textOf(row, 'state'),
  lat: numberOf(row, 'lat'),
  lon: numberOf(row, 'lon'),
}));

/** Kilometres on a plane that touches the point: another formula than the one tested, good at these distances. */
function planeKm(a: Point, b: Point): number {
  const east = (b.lon - a.lon) * Math.cos(((a.lat + b.lat) * Math.PI) / 360);
  return 111.19 * Math.hypot(east, b.lat - a.lat);
}

describe('stations near state lines', () => {
  it('distance agrees with known ones', () => {
    const [atlanta, madison] = [
      { lat: 33.63, lon: -84.44 },
      { lat: 43.14, lon: -89.35 },
    ];
    expect(distanceKm(atlanta, atlanta)).toBe(0);
    // One degree along a meridian of a sphere of 6,371 km.
    expect(distanceKm({ lat: 40, lon: -80 }, { lat: 41, lon: -80 })).toBeCloseTo(111.19, 1);
    expect(distanceKm(atlanta, madison)).toBeCloseTo(distanceKm(madison, atlanta), 9);
  });

  it.each(zips)(
    'ZIP $zip3 of $state: the nearest station stands in another state, the place stays',
    (zip) => {
      const area = base.places.zip3[zip.zip3];
      const [nearest] = nearestStations(zip, stations, 1);
      const best = stations.reduce((a, b) => (planeKm(zip, b) < planeKm(zip, a) ? b : a));
      expect(nearest?.station.id).toBe(best.id);
      expect(area?.station).toBe(best.id);
      expect(best.state).not.toBe(zip.state);
      expect(area?.state).toBe(zip.state);
      expect(houseOf({ place: `${zip.zip3}01`, parts: [{}] }).place.state).toBe(zip.state);
      expect(area?.decay).toBeCloseTo(carriedIndex(zip, stations), 1);
    },
  );

  it('there are at least fifty such prefixes, Washington among them', () => {
    expect(zips.length).toBeGreaterThan(50);
    expect(zips.filter((z) => z.state === 'DC').length).toBeGreaterThan(0);
  });
});

describe('elevation', () => {
  const months = (wetDays: number): Station['months'] =>
    Array.from({ length: 12 }, () => ({ meanF: 65, wetDays }));
  const station = (id: string, lat: number, elevationM: number, wetDays: number): Station => ({
    id,
    name: id,
    state: 'XX',
    lat,
    lon: -110,
    elevationM,
    months: months(wetDays),
  });
  const valley = [1, 2, 3, 4, 5].map((i) => station(`v${i}`, 40 + i / 10, 300, 4));
  const all = [...valley, station('top', 40.01, 2200, 20)];

  it('a mountain top beside the place is left out', () => {
    expect(carriedIndex({ lat: 40, lon: -110 }, all)).toBeCloseTo(12, 9);
    expect(carriedIndex({ lat: 40, lon: -110, elevationM: 300 }, all)).toBeCloseTo(12, 9);
  });

  it('a place on the mountain takes the station on the mountain', () => {
    expect(carriedIndex({ lat: 40, lon: -110, elevationM: 2000 }, all)).toBeCloseTo(204, 9);
  });
});

describe('leaving each station of the lower forty-eight states out', () => {
  const lower = stations.filter((s) => s.state !== 'AK' && s.state !== 'HI');
  const errors = lower.map((s) => {
    const others = stations.filter((o) => o.id !== s.id);
    const at = { lat: s.lat, lon: s.lon };
    const truth = decayIndex(s.months);
    const [nearest] = nearestStations(at, others, 1);
    const blind = carriedIndex(at, others);
    return {
      blind: Math.abs(blind - truth),
      informed: Math.abs(carriedIndex({ ...at, elevationM: s.elevationM }, others) - truth),
      nearest: Math.abs((nearest === undefined ? 0 : decayIndex(nearest.station.months)) - truth),
      band: decayBand(blind) === decayBand(truth),
    };
  });
  const mean = (of: (e: (typeof errors)[number]) => number): number =>
    errors.reduce((sum, e) => sum + of(e), 0) / errors.length;

  it('the carried index errs by less than 4.7 on average, by less with the elevation known', () => {
    expect(mean((e) => e.blind)).toBeLessThan(4.7);
    expect(mean((e) => e.informed)).toBeLessThan(mean((e) => e.blind));
  });

  it('the nearest station alone errs more', () => {
    expect(mean((e) => e.nearest)).toBeGreaterThan(mean((e) => e.blind) + 0.5);
  });

  it('seven stations in eight land in their band', () => {
    expect(mean((e) => (e.band ? 1 : 0))).toBeGreaterThan(0.87);
  });
});
