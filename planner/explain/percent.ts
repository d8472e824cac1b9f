/** A chance in words of figures; never 0% or 100%. */
export function percent(p: number): string {
  if (p < 0.01) return 'under 1%';
  if (p > 0.99) return 'over 99%';
  return `${Math.round(100 * p)}%`;
}
