import { type Diagnostic, diagnostic, quoted, spellPitch } from '../../diagnostics/index.js';
import { placeOf } from '../../yaml/index.js';
import { switchKeys } from '../switch-keys.js';
import type { MapCheck } from './check.js';

/**
 * key-taken: an articulation's notes are sent on a key that switches. key-outside: they are sent on a key that the
 * library is not said to play.
 */
export const ownKeys: MapCheck = (map, { yaml, isSure }) => {
  const { articulations, range, middleC, transpose } = map;
  const switches = switchKeys(map);
  const [low, high] = [range.low + transpose, range.high + transpose];
  return [...articulations.values()].filter(isSure).flatMap(({ name, key }): readonly Diagnostic[] => {
    if (key === undefined) return [];
    const place = placeOf(yaml, ['articulations', name, 'key']);
    const spelled = spellPitch(key, middleC);
    const [switching] = switches.get(key) ?? [];
    if (switching !== undefined)
      return [
        diagnostic(
          'key-taken',
          place,
          `the notes of ${quoted(name)} go out on ${spelled}, which is the switch of ${quoted(switching)}`,
          'see that both keys are as in the manual',
        ),
      ];
    if (!isSure(range) || (key >= low && key <= high)) return [];
    return [
      diagnostic(
        'key-outside',
        place,
        `the notes of ${quoted(name)} go out on ${spelled}, outside the range, ${spellPitch(low, middleC)} to ${spellPitch(high, middleC)}`,
        'see that note-60, range and key are as in the manual; a range has the keys of all strokes in it',
      ),
    ];
  });
};
