import { h, type Mark } from '../../markup/h.ts';
import { FOUNDATION_WORDS, ROOF_WORDS, WALL_WORDS, YEAR_SOURCE_WORDS } from '../../site/words.ts';
import { partKey } from '../params.ts';
import { choiceField, textField } from './fields.ts';

/** What decides most: the three fields that everyone fills in. */
export function mainFields(params: URLSearchParams): Mark[] {
  const value = (key: string): string => params.get(key) ?? '';
  return [
    textField({ key: 'built', label: 'Built', hint: '1913, 1910s, 1905-1915 or about 1900' }, value('built')),
    choiceField({ key: 'foundation', label: 'Foundation' }, value('foundation'), FOUNDATION_WORDS),
    textField({ key: 'place', label: 'Place', hint: 'State or ZIP' }, value('place'), { list: 'states' }),
  ];
}

/** The rest of what the main block is. */
export function moreMainFields(params: URLSearchParams): Mark[] {
  return bodyFields(params, 1);
}

/** An addition: a part with a year, a foundation and walls of its own. */
export function additionFields(params: URLSearchParams, part: number): Mark {
  const value = (field: string): string => params.get(partKey(field, part)) ?? '';
  const name = value('name') === '' ? `addition ${part - 1}` : value('name');
  return h(
    'fieldset',
    { class: 'addition', 'data-part': part },
    h('legend', {}, `Addition ${part - 1}`),
    textField({ key: partKey('name', part), label: 'Called' }, name),
    textField({ key: partKey('built', part), label: 'Built' }, value('built')),
    choiceField(
      { key: partKey('foundation', part), label: 'Foundation' },
      value('foundation'),
      FOUNDATION_WORDS,
    ),
    ...bodyFields(params, part),
    h('button', { type: 'button', class: 'plain', 'data-remove-part': part }, 'Remove this addition'),
  );
}

function bodyFields(params: URLSearchParams, part: number): Mark[] {
  const value = (field: string): string => params.get(partKey(field, part)) ?? '';
  return [
    choiceField(
      {
        key: partKey('year-source', part),
        label: 'Who says the year',
        ...(part === 1 ? { hint: 'A round year from an assessor or a listing is taken as vague.' } : {}),
      },
      value('year-source'),
      YEAR_SOURCE_WORDS,
    ),
    choiceField({ key: partKey('walls', part), label: 'Walls' }, value('walls'), WALL_WORDS),
    choiceField({ key: partKey('roof', part), label: 'Roof' }, value('roof'), ROOF_WORDS),
    textField({ key: partKey('storeys', part), label: 'Storeys' }, value('storeys'), { numeric: true }),
  ];
}
