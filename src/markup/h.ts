/** Markup as a value: views and drawings are written once and become text at build, nodes in the browser.
 * Text is always text: nothing typed or imported can turn into markup. */
export interface Mark {
  tag: string;
  attrs: Attrs;
  children: (Mark | string)[];
  /** More children, made when they are wanted: what stands under a summary. */
  later?: () => (Mark | string)[];
}

export type Attrs = Record<string, string | number | boolean | null | undefined>;
export type Child = Mark | string | number | null | undefined | false | readonly Child[];

export function h(tag: string, attrs: Attrs = {}, ...children: Child[]): Mark {
  return { tag, attrs, children: flatten(children) };
}

/** Something that opens: a plan has a thousand lines that stay closed, so they are made when one is opened. */
export function fold(attrs: Attrs, summary: Mark, make: () => Child): Mark {
  return { ...h('details', attrs, summary), later: () => flatten([make()]) };
}

function flatten(children: readonly Child[]): (Mark | string)[] {
  return children.flatMap((child): (Mark | string)[] => {
    if (child === null || child === undefined || child === false) return [];
    if (typeof child === 'string') return child === '' ? [] : [child];
    if (typeof child === 'number') return [String(child)];
    if (isList(child)) return flatten(child);
    return [child];
  });
}

function isList(child: Child): child is readonly Child[] {
  return Array.isArray(child);
}

/** Attributes that are set: false, null and undefined leave one out, true sets it empty. */
export function attributes(mark: Mark): [string, string][] {
  return Object.entries(mark.attrs).flatMap(([name, value]): [string, string][] => {
    if (value === false || value === null || value === undefined) return [];
    return [[name, value === true ? '' : String(value)]];
  });
}
