import type { Finding } from '../schema/base.ts';
import { fileOf, type Rule } from './rule.ts';

/** Shares are whole: columns add to one, rows are materials of that system, none is missing. */
export const shares: Rule = {
  name: 'shares',
  must: 'In every year the shares of a system add to 1, and its rows are exactly its materials (and none).',
  run(base) {
    const findings: Omit<Finding, 'rule'>[] = [];
    for (const system of base.systems) {
      const file = fileOf('systems', system.id);
      const materials = new Set(base.materials.filter((m) => m.system === system.id).map((m) => m.id));
      if (materials.size === 0)
        findings.push({
          file,
          field: '',
          problem: 'has no material',
          fix: 'write at least one material of this system',
        });
      const seen = new Set<string>();
      for (const which of ['new', 'renewal'] as const) {
        const table = system.shares[which];
        table.years.forEach((year, column) => {
          const sum = Object.values(table.rows).reduce((total, row) => total + (row[column] ?? 0), 0);
          if (Math.abs(sum - 1) > 1e-6)
            findings.push({
              file,
              field: `shares.${which}`,
              problem: `shares of ${year} add to ${sum.toFixed(4)}`,
              fix: 'make the column add to 1',
            });
        });
        for (const id of Object.keys(table.rows)) {
          seen.add(id);
          if (id !== 'none' && !materials.has(id))
            findings.push({
              file,
              field: `shares.${which}.${id}`,
              problem: 'is not a material of this system',
              fix: `write knowledge/materials/${id}.mdx with system: ${system.id}`,
            });
        }
      }
      for (const id of materials)
        if (!seen.has(id))
          findings.push({
            file,
            field: 'shares',
            problem: `gives no share to ${id}`,
            fix: 'add a row for it',
          });
      for (const wave of system.waves)
        for (const id of wave.of)
          if (id !== 'any' && id !== 'none' && !materials.has(id))
            findings.push({
              file,
              field: 'waves.of',
              problem: `"${id}" is not a material of this system`,
              fix: 'use any, none or a material id',
            });
      for (const region of system.regions)
        for (const id of Object.keys(region.factor))
          if (id !== 'none' && !materials.has(id))
            findings.push({
              file,
              field: 'regions.factor',
              problem: `"${id}" is not a material of this system`,
              fix: 'use none or a material id',
            });
    }
    return findings;
  },
};

/** Shares keep to the years in which the material was sold. */
export const years: Rule = {
  name: 'years',
  must: 'No share of new work before a material was first sold or after it was last sold, unless surveys still met it.',
  run(base) {
    const findings: Omit<Finding, 'rule'>[] = [];
    const systems = new Map(base.systems.map((s) => [s.id, s]));
    for (const material of base.materials) {
      const table = systems.get(material.system)?.shares.new;
      const row = table?.rows[material.id];
      if (table === undefined || row === undefined) continue;
      table.years.forEach((year, i) => {
        const { first, last, stillMet } = material.years;
        const early = year < first - 5;
        const late = last !== null && year > last + 5 && stillMet !== true;
        if ((early || late) && (row[i] ?? 0) > 0)
          findings.push({
            file: fileOf('systems', material.system),
            field: `shares.new.${material.id}`,
            problem: `gives ${row[i]} in ${year}, but ${material.id} was sold from ${first} to ${last ?? 'now'}`,
            fix: 'make that share 0, mend the years, or say stillMet with a survey as source',
          });
      });
    }
    return findings;
  },
};
