import { type Child, h, type Mark } from '../../markup/h.ts';
import { CLIENT_WORDS, FORM_WORDS, FUEL_WORDS, SEWER_WORDS, WATER_WORDS } from '../../site/words.ts';
import { partNumbers } from '../params.ts';
import { type ClueGroup, clueFields } from './clue-fields.ts';
import { choiceField, textField, tick } from './fields.ts';
import { additionFields, mainFields, moreMainFields } from './part-fields.ts';

/** The whole form, as it stands when the page is built. */
export function planForm(
  params: URLSearchParams,
  groups: ClueGroup[],
  states: { code: string; name: string }[],
): Mark {
  const value = (key: string): string => params.get(key) ?? '';
  const clients = new Set(params.getAll('client'));
  const additions = partNumbers(params).filter((n) => n > 1);
  return h(
    'form',
    {
      id: 'house',
      class: 'plan-form',
      autocomplete: 'off',
      novalidate: true,
      'aria-label': 'The house and the visit',
    },
    h(
      'datalist',
      { id: 'states' },
      states.map((s) => h('option', { value: s.code }, s.name)),
    ),
    h('div', { class: 'fields essential' }, mainFields(params)),
    fold('More on the main block', h('div', { class: 'fields' }, moreMainFields(params))),
    fold(
      'Additions',
      h(
        'p',
        { class: 'hint' },
        'An old house is often two or three houses. Give each part its own year and foundation.',
      ),
      h(
        'div',
        { id: 'additions' },
        additions.map((n) => additionFields(params, n)),
      ),
      h('button', { type: 'button', class: 'plain', id: 'add-part' }, 'Add an addition'),
    ),
    fold(
      'The house',
      h(
        'div',
        { class: 'fields' },
        choiceField({ key: 'form', label: 'Form' }, value('form'), FORM_WORDS),
        choiceField({ key: 'coast', label: 'Salt water', hint: 'Sea, bay or tidal river' }, value('coast'), {
          'within-3000-ft': 'Within 3,000 feet',
          farther: 'Farther',
        }),
        textField({ key: 'units', label: 'Dwellings', hint: '1 to 4' }, value('units'), { numeric: true }),
        textField({ key: 'area', label: 'Living area, square feet' }, value('area'), { numeric: true }),
        choiceField({ key: 'water', label: 'Water' }, value('water'), WATER_WORDS),
        choiceField({ key: 'sewer', label: 'Sewer' }, value('sewer'), SEWER_WORDS),
        choiceField({ key: 'fuel', label: 'Heating fuel' }, value('fuel'), FUEL_WORDS),
        choiceField({ key: 'occupied', label: 'Lived in' }, value('occupied'), {
          occupied: 'Occupied',
          vacant: 'Vacant',
        }),
        choiceField({ key: 'utilities', label: 'Utilities' }, value('utilities'), { on: 'On', off: 'Off' }),
      ),
    ),
    fold(
      'The visit',
      h(
        'div',
        { class: 'fields' },
        textField(
          { key: 'minutes', label: 'Minutes on site', hint: 'Arrival to goodbye' },
          value('minutes'),
          { numeric: true },
        ),
        textField({ key: 'team', label: 'People walking', hint: '1 to 4' }, value('team'), { numeric: true }),
        textField(
          { key: 'trainees', label: 'Of them trainees', hint: 'Beside others at hazards' },
          value('trainees'),
          {
            numeric: true,
          },
        ),
        textField({ key: 'rain-hours', label: 'Hours since good rain' }, value('rain-hours'), {
          numeric: true,
        }),
        textField({ key: 'outdoor', label: 'Outdoors, F' }, value('outdoor'), { numeric: true }),
        textField({ key: 'indoor', label: 'Indoors, F' }, value('indoor'), { numeric: true }),
        textField({ key: 'as-of', label: 'Counted from the year' }, value('as-of'), { numeric: true }),
      ),
    ),
    fold(
      'The client',
      h('p', { class: 'hint' }, 'What weighs more for this client.'),
      Object.entries(CLIENT_WORDS).map(([id, words]) => tick('client', id, words, clients.has(id))),
    ),
    fold(
      'Clues',
      h(
        'p',
        { class: 'hint' },
        'Tick what was seen in photographs, told by the seller, read in a record or found on site; and “not met” for what you looked for where it would show and did not find.',
      ),
      h('p', { class: 'wrong', id: 'in-clue-wrong', hidden: true }),
      clueFields(groups, params),
    ),
    h(
      'div',
      { class: 'form-end' },
      h(
        'button',
        { type: 'button', class: 'plain main-action to-plan', 'data-jump': 'plan' },
        'See the plan',
      ),
      h('button', { type: 'button', class: 'plain', id: 'blank' }, 'Start from a blank sheet'),
    ),
  );
}

function fold(title: string, ...children: Child[]): Mark {
  return h('details', { class: 'fold' }, h('summary', {}, title), h('div', { class: 'fold-body' }, children));
}
