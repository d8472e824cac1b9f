import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { h } from '../../src/markup/h.ts';
import { toHtml } from '../../src/markup/html.ts';

describe('markup made of values', () => {
  it('escapes text and attributes', () => {
    expect(toHtml(h('p', { title: '"<&>' }, '<b>"&</b>'))).toBe(
      '<p title="&quot;&lt;&amp;&gt;">&lt;b&gt;&quot;&amp;&lt;/b&gt;</p>',
    );
  });

  it('leaves out what is not set, and closes what needs closing', () => {
    expect(toHtml(h('input', { checked: true, hidden: false, value: null }))).toBe('<input checked>');
    expect(toHtml(h('td', {}, false, null, 0, ['a', ['b']]))).toBe('<td>0ab</td>');
  });

  it('no text can open a tag', () => {
    fc.assert(
      fc.property(fc.string(), fc.string(), (text, value) => {
        const html = toHtml(h('p', { title: `x${value}` }, `x${text}`));
        return (html.match(/</g) ?? []).length === 2;
      }),
    );
  });
});
