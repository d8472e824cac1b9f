/** Coordinates with at most two decimals: short, and the same on every machine. */
export function px(value: number): string {
  return String(Math.round(value * 100) / 100);
}

export function round(value: number): number {
  return Math.round(value * 100) / 100;
}
