import { type EditedYaml, edited, type NotEdited, openYaml } from '../yaml/index.js';
import { type DeskFile, type Movable, type Moved, spelled } from './movable.js';

/** Why a value stays where it is; `unknown`: no such value is there (any more), `out-of-reach`: it may not be that. */
export type NotMoved = NotEdited | 'unknown' | 'out-of-reach';

export interface Refused {
  readonly id: string;
  readonly why: NotMoved;
}

/** Files with values moved. */
export interface MovedFiles {
  /** Those that are others now, with their new texts. */
  readonly files: readonly DeskFile[];
  readonly refused: readonly Refused[];
}

/** Neighbours behind which a level is put where a part has none. */
const behind = ['players', 'divide', 'map'];

/**
 * Puts moved values into the texts of their files; comments, order and everything else stay. What cannot be put there
 * without changing something else is refused, and the rest is done.
 */
export function movedFiles(
  files: readonly DeskFile[],
  movables: readonly Movable[],
  moved: readonly Moved[],
): MovedFiles {
  const known = new Map(movables.map((one) => [one.id, one]));
  const texts = new Map<string, EditedYaml>();
  const refused: Refused[] = [];
  for (const { id, value } of moved) {
    const movable = known.get(id);
    const file = files.find(({ name }) => name === movable?.file);
    if (!movable || !file) {
      refused.push({ id, why: 'unknown' });
      continue;
    }
    if (value === movable.value) continue;
    if (!isInReach(movable, value)) {
      refused.push({ id, why: 'out-of-reach' });
      continue;
    }
    const text = spelled(movable, value);
    const next = edited(
      texts.get(file.name) ?? openYaml(file.text),
      { path: movable.path, text, value: dataOf(movable, text) },
      behind,
    );
    if ('refused' in next) refused.push({ id, why: next.refused });
    else texts.set(file.name, next);
  }
  return { files: [...texts].map(([name, { text }]) => ({ name, text })), refused };
}

/** Numbers without a unit are numbers in YAML. */
function dataOf({ reach }: Movable, text: string): unknown {
  return 'choices' in reach || !/^-?\d+(\.\d+)?$/u.test(text) ? text : Number(text);
}

function isInReach({ reach }: Movable, value: string): boolean {
  if ('choices' in reach) return reach.choices.includes(value);
  const number = Number(value);
  return /^-?\d{1,7}(\.\d{1,6})?$/u.test(value) && number >= reach.least && number <= reach.most;
}
