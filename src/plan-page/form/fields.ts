import { type Child, h, type Mark } from '../../markup/h.ts';

/** Controls of the form. Each is a labelled field with room for what is wrong with it. */
export interface FieldText {
  key: string;
  label: string;
  hint?: string;
}

export function textField(
  { key, label, hint }: FieldText,
  value: string,
  how: { numeric?: boolean; list?: string; placeholder?: string } = {},
): Mark {
  return field(
    { key, label, ...(hint === undefined ? {} : { hint }) },
    h('input', {
      id: idOf(key),
      name: key,
      type: 'text',
      value,
      inputmode: how.numeric === true ? 'numeric' : null,
      list: how.list,
      placeholder: how.placeholder,
      autocomplete: 'off',
      spellcheck: 'false',
      'aria-describedby': describedBy(key, hint),
    }),
  );
}

export function choiceField(
  { key, label, hint }: FieldText,
  value: string,
  words: Record<string, string>,
): Mark {
  const options = [['unknown', 'Not known'] as const, ...Object.entries(words)];
  return field(
    { key, label, ...(hint === undefined ? {} : { hint }) },
    h(
      'select',
      { id: idOf(key), name: key, 'aria-describedby': describedBy(key, hint) },
      options.map(([id, say]) =>
        h('option', { value: id, selected: id === (value === '' ? 'unknown' : value) }, say),
      ),
    ),
  );
}

/** `said` is the whole name where the label is cut short. */
export function tick(name: string, value: string, label: Child, checked: boolean, said?: string): Mark {
  const id = `${idOf(name)}-${value}`;
  return h(
    'div',
    { class: 'tick-field' },
    h('input', { type: 'checkbox', id, name, value, checked, 'aria-label': said }),
    h('label', { for: id }, label),
  );
}

export function idOf(key: string): string {
  return `in-${key.replaceAll('.', '-')}`;
}

export function errorId(key: string): string {
  return `${idOf(key)}-wrong`;
}

function field({ key, label, hint }: FieldText, control: Mark): Mark {
  return h(
    'div',
    { class: 'field' },
    h('label', { for: idOf(key) }, label),
    control,
    hint !== undefined && h('p', { class: 'hint', id: `${idOf(key)}-hint` }, hint),
    h('p', { class: 'wrong', id: errorId(key), hidden: true }),
  );
}

function describedBy(key: string, hint: string | undefined): string {
  return hint === undefined ? errorId(key) : `${errorId(key)} ${idOf(key)}-hint`;
}
