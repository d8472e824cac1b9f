import type { ShareTable } from '../../knowledge/schema/system.ts';
import { type Hatch, SERIES } from './hatches.ts';

export interface ShareBand {
  id: string;
  title: string;
  hatch: Hatch;
  /** Share at each year of the table, 0 to 1. */
  shares: number[];
}

/** Bands in the order they came to market, `none` last and blank, so that it lies on top. */
export function shareBands(table: ShareTable, titleOf: (id: string) => string, order: string[]): ShareBand[] {
  const ids = Object.keys(table.rows).sort((a, b) => rank(a, order) - rank(b, order));
  return ids.map((id) => ({
    id,
    title: id === 'none' ? 'none' : titleOf(id),
    hatch: id === 'none' ? 'blank' : (SERIES[order.indexOf(id) % SERIES.length] ?? 'blank'),
    shares: table.rows[id] ?? [],
  }));
}

function rank(id: string, order: string[]): number {
  return id === 'none' ? order.length + 1 : order.indexOf(id);
}

/** Share of a band in any year: linear between the table's years, constant outside. */
export function shareAt(years: number[], shares: number[], year: number): number {
  const after = years.findIndex((y) => y >= year);
  if (after === -1) return shares.at(-1) ?? 0;
  if (after === 0) return shares[0] ?? 0;
  const y0 = years[after - 1] ?? year;
  const y1 = years[after] ?? year;
  const s0 = shares[after - 1] ?? 0;
  const s1 = shares[after] ?? 0;
  return s0 + ((s1 - s0) * (year - y0)) / (y1 - y0);
}
