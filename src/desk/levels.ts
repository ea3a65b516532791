import type { Cue } from '../cue/index.js';
import { escapeText } from '../diagnostics/index.js';
import type { Movable } from './movable.js';
import { levelReach } from './reach.js';

/** The levels of a cue's parts, in its order; where a part says none, it is 0 dB. */
export function levelsIn({ parts }: Pick<Cue, 'parts'>, file: string): readonly Movable[] {
  return parts.map(({ name, level = 0 }, index) => ({
    id: `${file}#parts.${index}.level`,
    file,
    path: ['parts', index, 'level'],
    words: `${escapeText(name)}: level`,
    where: `part ${index + 1}`,
    value: `${level}`,
    reach: levelReach(level),
  }));
}
