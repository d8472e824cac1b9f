import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { GeometryCollection, Topology } from 'topojson-specification';

type Named = GeometryCollection<{ name: string }>;
interface Atlases {
  'counties-10m': Topology<{ counties: Named }>;
  'states-albers-10m': Topology<{ states: Named }>;
}

/** Outlines of states and counties from the package us-atlas (US Census Bureau cartographic boundaries). */
export function readAtlas<K extends keyof Atlases>(name: K): Atlases[K] {
  const path = createRequire(import.meta.url).resolve(`us-atlas/${name}.json`);
  return JSON.parse(readFileSync(path, 'utf8'));
}
