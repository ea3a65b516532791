import type { DeskState, Movable } from '../../state.js';
import { made } from './told.js';

/** The values that can be moved, as they stand on the page. */
export interface Values {
  /** Shows those of a state. What is moved stays moved, where the value is still there. */
  show(state: Pick<DeskState, 'bounds' | 'levels'>): void;
  /** What is moved: the value and what it is to be, by the value's name. */
  readonly moved: ReadonlyMap<string, { readonly movable: Movable; readonly to: string }>;
  putBack(ids: Iterable<string>): void;
  /** Gives a value's field the keyboard. */
  focus(id: string): void;
}

interface Row {
  readonly movable: Movable;
  readonly field: HTMLElement;
  set(value: string): void;
}

/** Groups are closed at first where there are more than so many. */
const mostOpen = 8;

/** @param changed is told when something is moved or put back */
export function valuesIn(room: Element, changed: () => void): Values {
  let rows = new Map<string, Row>();
  let shape = '';
  /** Groups that were opened or closed. */
  const folds = new Map<string, boolean>();
  const moved = new Map<string, { movable: Movable; to: string }>();
  const move = (movable: Movable, to: string) => {
    if (to === movable.value) moved.delete(movable.id);
    else moved.set(movable.id, { movable, to });
    rows.get(movable.id)?.set(to);
    changed();
  };
  return {
    moved,
    show({ bounds, levels }) {
      const next = JSON.stringify([bounds, levels]);
      if (next === shape) return;
      shape = next;
      const focused = document.activeElement?.id;
      rows = new Map();
      const group = (heading: string, values: readonly Movable[], note?: string): Node[] => {
        if (values.length === 0) return [];
        const lines = values.map((movable, index) => {
          const row = rowOf(movable, `v${rows.size}-${index}`, move);
          rows.set(movable.id, row);
          return row.element;
        });
        const box = made(
          'details',
          '',
          made('summary', '', made('h3', '', heading)),
          ...(note === undefined ? [] : [made('p', 'note', note)]),
          ...lines,
        );
        box.open = folds.get(heading) ?? bounds.length <= mostOpen;
        box.addEventListener('toggle', () => folds.set(heading, box.open));
        return [box];
      };
      const ofBounds = bounds.flatMap(({ file, parts, values }) => group(parts.join(', '), values, file));
      room.replaceChildren(
        ...(ofBounds.length === 0 ? [] : [made('h2', '', 'Bounds'), ...ofBounds]),
        ...(levels.length === 0 ? [] : [made('h2', '', 'Levels'), ...group('In the cue', levels)]),
      );
      for (const [id, { to }] of moved) {
        const row = rows.get(id);
        if (!row || row.movable.value === to) moved.delete(id);
        else {
          moved.set(id, { movable: row.movable, to });
          row.set(to);
        }
      }
      if (focused) document.getElementById(focused)?.focus({ preventScroll: true });
    },
    putBack(ids) {
      for (const id of [...ids]) {
        const one = moved.get(id);
        moved.delete(id);
        if (one) rows.get(id)?.set(one.movable.value);
      }
      changed();
    },
    focus(id) {
      const { field } = rows.get(id) ?? {};
      field?.closest('details')?.setAttribute('open', '');
      field?.focus();
    },
  };
}

type Move = (movable: Movable, to: string) => void;

function rowOf(movable: Movable, id: string, move: Move): Row & { readonly element: Element } {
  const { words, where, reach, value } = movable;
  const label = made('label', '', words);
  label.htmlFor = id;
  const [slider, field] =
    'choices' in reach ? choiceInputs(reach.choices, movable, move) : numberInputs(reach, movable, move);
  slider.id = `${id}s`;
  slider.setAttribute('aria-label', `${words} (${where})`);
  field.id = id;
  const unit = 'choices' in reach ? '' : reach.unit;
  const note = made('span', 'note', where);
  const element = made(
    'div',
    'value',
    label,
    made('div', 'line', slider, field, made('span', 'unit', unit)),
    note,
  );
  const set = (to: string) => {
    const isMoved = to !== value;
    element.classList.toggle('moved', isMoved);
    note.textContent = isMoved ? `${where}; moved, the file has ${value}${unit}` : where;
    const at = 'choices' in reach ? `${reach.choices.indexOf(to)}` : to;
    if (slider.value !== at) slider.value = at;
    if (field.value !== to && document.activeElement !== field) field.value = to;
    slider.setAttribute('aria-valuetext', `${to}${unit === '' ? '' : ` ${unit}`}`);
  };
  field.addEventListener('blur', () => {
    const to = 'choices' in reach ? (reach.choices[Number(slider.value)] ?? value) : slider.value;
    if (field.value === '') field.value = to;
  });
  set(value);
  return { movable, element, field, set };
}

type Inputs = readonly [slider: HTMLInputElement, field: HTMLInputElement | HTMLSelectElement];

function inputOf(type: 'range' | 'number', least: number, most: number, step: number): HTMLInputElement {
  const input = document.createElement('input');
  input.type = type;
  input.min = `${least}`;
  input.max = `${most}`;
  input.step = `${step}`;
  return input;
}

function numberInputs(
  { least, most, step }: { readonly least: number; readonly most: number; readonly step: number },
  movable: Movable,
  move: Move,
): Inputs {
  const slider = inputOf('range', least, most, step);
  const field = inputOf('number', least, most, step);
  slider.addEventListener('input', () => {
    field.value = slider.value;
    move(movable, slider.value);
  });
  field.addEventListener('input', () => {
    if (field.value !== '' && field.validity.valid) move(movable, String(Number(field.value)));
  });
  return [slider, field];
}

function choiceInputs(choices: readonly string[], movable: Movable, move: Move): Inputs {
  const slider = inputOf('range', 0, choices.length - 1, 1);
  const field = document.createElement('select');
  field.append(...choices.map((one) => new Option(one, one)));
  slider.addEventListener('input', () => {
    const to = choices[Number(slider.value)] ?? movable.value;
    field.value = to;
    move(movable, to);
  });
  field.addEventListener('change', () => move(movable, field.value));
  return [slider, field];
}
