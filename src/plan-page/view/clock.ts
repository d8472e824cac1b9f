/** Minutes from arrival as a clock: 75 is 1:15. */
export function clock(minutes: number): string {
  const whole = Math.round(minutes);
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, '0')}`;
}

/** Minutes in words: 45 minutes, 2 hours, 2 hours 20 minutes. */
export function duration(minutes: number): string {
  const whole = Math.round(minutes);
  const hours = Math.floor(whole / 60);
  const rest = whole % 60;
  const words = [
    hours > 0 ? `${hours} ${hours === 1 ? 'hour' : 'hours'}` : '',
    rest > 0 || hours === 0 ? `${rest} ${rest === 1 ? 'minute' : 'minutes'}` : '',
  ];
  return words.filter((w) => w !== '').join(' ');
}

/** A count and its word: 1 check, 3 checks. */
export function counted(count: number, word: string): string {
  return `${count} ${count === 1 ? word : `${word}s`}`;
}
