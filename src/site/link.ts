/** The address of a page of this site, wherever the site is put: `to('/systems/')`. */
export function to(path: string): string {
  const base = import.meta.env.BASE_URL.replace(/\/$/, '');
  return `${base}${path}`;
}

export type EntryKind = 'systems' | 'materials' | 'failures' | 'checks' | 'eras';

export function toEntry(kind: EntryKind, id: string): string {
  return to(`/${kind}/${encodeURIComponent(id)}/`);
}
