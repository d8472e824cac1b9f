/** What a person gave can't be used. The message is one line: option, value, what is accepted, nearest match. */
export class UsageError extends Error {
  override readonly name = 'UsageError';
}

/** The line for an option whose value is refused. */
export function refusal(option: string, value: string, accepted: string, near: string | null): string {
  const suggestion = near === null ? '' : `; did you mean ${near}?`;
  return `${option} ${JSON.stringify(value)} is not accepted; use ${accepted}${suggestion}`;
}
