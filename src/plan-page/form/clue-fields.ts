import { h, type Mark } from '../../markup/h.ts';
import { partNumbers } from '../params.ts';
import { idOf, textField, tick } from './fields.ts';

/** A clue as the form offers it. */
export interface ClueChoice {
  id: string;
  say: string;
  dated: boolean;
}

export interface ClueGroup {
  system: string;
  title: string;
  clues: ClueChoice[];
}

/** Clues by system: tick what was seen, told or read. Dated ones take the year. */
export function clueFields(groups: ClueGroup[], params: URLSearchParams): Mark[] {
  const ticked = new Set(params.getAll('clue'));
  return groups.map((group) => {
    const count = group.clues.filter((c) => ticked.has(c.id)).length;
    return h(
      'details',
      { class: 'clue-group', open: count > 0 },
      h('summary', {}, group.title, h('span', { class: 'clue-count quiet' }, ` ${group.clues.length}`)),
      group.clues.map((clue) => clueField(clue, params, ticked.has(clue.id))),
    );
  });
}

function clueField(clue: ClueChoice, params: URLSearchParams, checked: boolean): Mark {
  return h(
    'div',
    { class: 'clue', 'data-dated': clue.dated },
    tick('clue', clue.id, clue.say, checked),
    checked && clueMore(clue.id, clue.dated, params),
  );
}

/** What a ticked clue still needs: the year that it gives, and the part it was met in. */
export function clueMore(id: string, dated: boolean, params: URLSearchParams): Mark {
  const year = `year.${id}`;
  const at = `at.${id}`;
  const numbers = partNumbers(params);
  return h(
    'div',
    { class: 'clue-more' },
    dated && textField({ key: year, label: 'Year it gives' }, params.get(year) ?? '', { numeric: true }),
    h(
      'div',
      { class: 'field clue-part', hidden: numbers.length < 2 },
      h('label', { for: idOf(at) }, 'In which part'),
      h(
        'select',
        { id: idOf(at), name: at },
        numbers.map((n, i) =>
          h(
            'option',
            { value: n, selected: params.get(at) === String(n) },
            n === 1 ? 'main block' : (params.get(`name.${n}`) ?? `addition ${i}`),
          ),
        ),
      ),
    ),
  );
}
