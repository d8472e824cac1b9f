import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';
import { House } from '../house/house-schema.ts';
import { Plan } from '../plan/plan-schema.ts';

/** Writes the published JSON Schemas: `npm run schemas`. A test fails if they lag behind. */
export function schemaTexts(): Record<string, string> {
  return {
    'house.schema.json': textOf(House, 'A house file of datestone'),
    'plan.schema.json': textOf(Plan, 'What datestone plan --json prints'),
  };
}

function textOf(schema: z.ZodType, title: string): string {
  const { $schema, ...rest } = z.toJSONSchema(schema, { target: 'draft-2020-12' });
  return `${JSON.stringify({ $schema, title, ...rest }, null, 2)}\n`;
}

if (process.argv[1] === import.meta.filename)
  for (const [name, text] of Object.entries(schemaTexts())) {
    writeFileSync(join(import.meta.dirname, '../../docs', name), text);
    console.log(`docs/${name}`);
  }
