import { createHash } from 'node:crypto';

/** What a page may load: its own files and nothing else. What stands inline in the emitted page is let through
 * by its hash, and by nothing broader. */
export function policyFor(html: string): string {
  return [
    "default-src 'none'",
    `script-src ${sources(inline(html, 'script'))}`,
    `style-src ${sources(inline(html, 'style'))}`,
    "img-src 'self' data:",
    "connect-src 'self'",
    "worker-src 'self'",
    "manifest-src 'self'",
    "form-action 'self'",
    "base-uri 'none'",
  ].join('; ');
}

const sources = (texts: string[]): string => ["'self'", ...new Set(texts.map(hashOf))].join(' ');

const hashOf = (text: string): string => `'sha256-${createHash('sha256').update(text).digest('base64')}'`;

/** The text of inline scripts or styles; a script with an address of its own has none. */
function inline(html: string, tag: 'script' | 'style'): string[] {
  return [...html.matchAll(new RegExp(`<${tag}([^>]*)>([\\s\\S]*?)</${tag}>`, 'g'))].flatMap(
    ([, attributes = '', text = '']) => (/\ssrc=/.test(attributes) ? [] : [text]),
  );
}

/** A page with its policy, before anything that could load. Inline style attributes have no hash: they are refused. */
export function sealed(html: string, page: string): string {
  const styled = /<[a-z][^<>]*\sstyle=(?:"[^"]*"|'[^']*'|[^\s>]+)[^<>]*>/i.exec(html);
  if (styled !== null)
    throw new Error(`${page}: an inline style would be refused: ${styled[0].slice(0, 120)}`);
  const charset = /<meta charset="utf-8"\s*\/?>/i.exec(html);
  if (charset === null)
    throw new Error(`${page}: there is no <meta charset> to set the content policy after`);
  const end = charset.index + charset[0].length;
  const meta = `<meta http-equiv="content-security-policy" content="${policyFor(html)}">`;
  return `${html.slice(0, end)}${meta}${html.slice(end)}`;
}
