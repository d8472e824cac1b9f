/** How surely a check brings a failure mode to light where it is there. */
export function sureness(sensitivity: number): string {
  if (sensitivity >= 0.85) return 'Nearly always finds it';
  if (sensitivity >= 0.65) return 'Mostly finds it';
  if (sensitivity >= 0.4) return 'Finds it about half the time';
  if (sensitivity >= 0.2) return 'Finds it now and then';
  return 'Seldom finds it';
}
