import { defineCollection } from 'astro:content';
import { glob } from 'astro/loaders';
import { Check } from '../knowledge/schema/check.ts';
import { Failure } from '../knowledge/schema/failure.ts';
import { Material } from '../knowledge/schema/material.ts';
import { Era } from '../knowledge/schema/reference.ts';
import { System } from '../knowledge/schema/system.ts';

const folder = (name: string) => glob({ pattern: '*.mdx', base: `./knowledge/${name}`, retainBody: false });

/** Entries with prose. The schemas are the knowledge base's own: there is no second definition. */
export const collections = {
  systems: defineCollection({ loader: folder('systems'), schema: System }),
  materials: defineCollection({ loader: folder('materials'), schema: Material }),
  failures: defineCollection({ loader: folder('failures'), schema: Failure }),
  checks: defineCollection({ loader: folder('checks'), schema: Check }),
  eras: defineCollection({ loader: folder('eras'), schema: Era }),
};
