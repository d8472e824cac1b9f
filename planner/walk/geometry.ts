import type { Base } from '../../knowledge/schema/base.ts';

/** Walking minutes between the stops of a house. */
export interface Geometry {
  stops: string[];
  at: Map<string, number>;
  /** [from * n + to] shortest walking minutes. */
  minutes: Float64Array;
  /** Minutes to open each stop: suit, hatch, ladder. */
  opening: number[];
}

const made = new WeakMap<Base['stops'], Geometry>();

/** Shortest walks between stops, from the neighbours that stops.yaml names. Made once for each list of stops. */
export function makeGeometry(stops: Base['stops']): Geometry {
  const ready = made.get(stops);
  if (ready !== undefined) return ready;
  const geometry = measure(stops);
  made.set(stops, geometry);
  return geometry;
}

function measure(stops: Base['stops']): Geometry {
  const n = stops.length;
  const at = new Map(stops.map((s, i) => [s.id as string, i]));
  const minutes = new Float64Array(n * n).fill(60);
  stops.forEach((stop, i) => {
    minutes[i * n + i] = 0;
    for (const [id, walk] of Object.entries(stop.near)) {
      const j = at.get(id);
      if (j === undefined || walk === undefined) continue;
      minutes[i * n + j] = Math.min(minutes[i * n + j] ?? 60, walk);
      minutes[j * n + i] = Math.min(minutes[j * n + i] ?? 60, walk);
    }
  });
  for (let k = 0; k < n; k++)
    for (let i = 0; i < n; i++)
      for (let j = 0; j < n; j++) {
        const via = (minutes[i * n + k] ?? 60) + (minutes[k * n + j] ?? 60);
        if (via < (minutes[i * n + j] ?? 60)) minutes[i * n + j] = via;
      }
  return { stops: stops.map((s) => s.id), at, minutes, opening: stops.map((s) => s.opening) };
}

export function walkMinutes(geometry: Geometry, from: number, to: number): number {
  return geometry.minutes[from * geometry.stops.length + to] ?? 0;
}
