import { decayIndex, type Month } from '../../planner/places/decay-index.ts';

export interface Point {
  /** Degrees north and east. */
  lat: number;
  lon: number;
}

/** A climate station with its monthly normals. */
export interface Station extends Point {
  id: string;
  name: string;
  /** State as the station list has it: Washington's stands in Virginia. Never the state of a place. */
  state: string;
  elevationM: number;
  months: Month[];
}

export interface NearStation {
  station: Station;
  km: number;
}

/** Great-circle distance in kilometres on a sphere of 6,371 km. */
export function distanceKm(a: Point, b: Point): number {
  const rad = Math.PI / 180;
  const dLat = Math.sin(((b.lat - a.lat) * rad) / 2) ** 2;
  const dLon = Math.sin(((b.lon - a.lon) * rad) / 2) ** 2;
  const x = dLat + Math.cos(a.lat * rad) * Math.cos(b.lat * rad) * dLon;
  return 2 * 6371 * Math.asin(Math.min(1, Math.sqrt(x)));
}

/** Stations by distance, nearest first, whichever state they stand in: weather does not stop at a state line. */
export function nearestStations(at: Point, stations: readonly Station[], count: number): NearStation[] {
  return stations
    .map((station) => ({ station, km: distanceKm(at, station) }))
    .sort((a, b) => a.km - b.km || (a.station.id < b.station.id ? -1 : 1))
    .slice(0, count);
}

/** How many stations an index is carried from: of 1, 3 and 5 this erred least when each station was left out. */
export const CARRIED_FROM = 5;

/** A station this much higher or lower than a place tells of other weather (metres). */
const OTHER_WEATHER_M = 500;

/** A centroid has no elevation of its own; only a station this far off the middle of its neighbours (a mountain top)
 * is left out. A tighter rule threw out good stations and erred more. */
const MOUNTAIN_TOP_M = 1000;

/** Decay index carried to a place from its nearest stations, weighted by one over the distance. */
export function carriedIndex(at: Point & { elevationM?: number }, stations: readonly Station[]): number {
  const near = nearestStations(at, stations, CARRIED_FROM + 2);
  const ground = at.elevationM ?? median(near.map(({ station }) => station.elevationM));
  const limit = at.elevationM === undefined ? MOUNTAIN_TOP_M : OTHER_WEATHER_M;
  const alike = near.filter(({ station }) => Math.abs(station.elevationM - ground) <= limit);
  const chosen = (alike.length > 0 ? alike : near).slice(0, CARRIED_FROM);
  const weights = chosen.map(({ km }) => 1 / Math.max(1, km));
  const total = weights.reduce((sum, w) => sum + w, 0);
  return (
    chosen.reduce((sum, { station }, i) => sum + (weights[i] ?? 0) * decayIndex(station.months), 0) / total
  );
}

function median(values: number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)] ?? 0;
}
