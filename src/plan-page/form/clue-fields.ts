import { NOT } from '../../../planner/belief/not-met.ts';
import { h, type Mark } from '../../markup/h.ts';
import { dwellingsOf, partNumbers, yearKeyOf } from '../params.ts';
import { errorId, idOf, textField, tick } from './fields.ts';

/** A clue as the form offers it. */
export interface ClueChoice {
  id: string;
  say: string;
  dated: boolean;
  /** One can look for it and not meet it. */
  missable: boolean;
}

export interface ClueGroup {
  system: string;
  title: string;
  clues: ClueChoice[];
}

/** Clues by system: tick what was seen, told or read, and what was looked for and not met. Dated ones take the year. */
export function clueFields(groups: ClueGroup[], params: URLSearchParams): Mark[] {
  const ticked = new Set(params.getAll('clue'));
  return groups.map((group) => {
    const count = group.clues.filter((c) => ticked.has(c.id) || ticked.has(NOT + c.id)).length;
    return h(
      'details',
      { class: 'clue-group', open: count > 0 },
      h('summary', {}, group.title, h('span', { class: 'clue-count quiet' }, ` ${group.clues.length}`)),
      group.clues.map((clue) => clueField(clue, params, ticked)),
    );
  });
}

function clueField(clue: ClueChoice, params: URLSearchParams, ticked: ReadonlySet<string>): Mark {
  const missed = NOT + clue.id;
  const told = [clue.id, missed].find((id) => ticked.has(id));
  return h(
    'div',
    { class: 'clue', 'data-dated': clue.dated },
    tick('clue', clue.id, clue.say, ticked.has(clue.id)),
    clue.missable && tick('clue', missed, 'not met', ticked.has(missed), `Looked for, not met: ${clue.say}`),
    told !== undefined && clueMore(told, clue.dated, params),
  );
}

/** What a ticked clue still needs: the year that it gives, and the dwelling and the part it was met in. */
export function clueMore(id: string, dated: boolean, params: URLSearchParams): Mark {
  const at = `at.${id}`;
  const numbers = partNumbers(params);
  return h(
    'div',
    { class: 'clue-more' },
    dated ? yearFields(id, params) : dwellingTicks(id, params),
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

/** The year that a dated clue gives; of several dwellings each may have its own. */
function yearFields(id: string, params: URLSearchParams): Mark[] {
  const several = dwellingsOf(params) > 1;
  return dwellings(params).map((n) => {
    const key = yearKeyOf(id, n);
    const label = several ? `Year it gives in dwelling ${n}` : 'Year it gives';
    return textField({ key, label }, params.get(key) ?? '', { numeric: true });
  });
}

/** Of several dwellings, those the clue was met in. */
function dwellingTicks(id: string, params: URLSearchParams): Mark | false {
  if (dwellingsOf(params) < 2) return false;
  const key = `unit.${id}`;
  const met = params.getAll(key);
  return h(
    'fieldset',
    { class: 'clue-dwellings' },
    h('legend', {}, id.startsWith(NOT) ? 'Looked for in' : 'Met in'),
    dwellings(params).map((n) =>
      tick(key, String(n), `dwelling ${n}`, met.includes(String(n)) || (met.length === 0 && n === 1)),
    ),
    h('p', { class: 'wrong', id: errorId(key), hidden: true }),
  );
}

function dwellings(params: URLSearchParams): number[] {
  return Array.from({ length: dwellingsOf(params) }, (_, i) => i + 1);
}
