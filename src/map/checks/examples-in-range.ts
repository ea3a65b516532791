import { type Diagnostic, diagnostic, quoted, spellPitch } from '../../diagnostics/index.js';
import type { MapCheck } from './check.js';

/**
 * example-out-of-range: an example shows what is done with a note that the instrument does not have; often one that a
 * base lends to an instrument of another range.
 */
export const examplesInRange: MapCheck = ({ examples, range, middleC, file }, { isSure }) => {
  const { low, high } = range;
  if (!isSure(range) || low > high) return [];
  const spell = (pitch: number) => spellPitch(pitch, middleC);
  return examples.flatMap(({ notes, place }, index): Diagnostic[] => {
    const outside = notes.find(({ pitch }) => pitch < low || pitch > high);
    if (!outside) return [];
    const lent =
      'file' in place && place.file !== file ? `, of the map ${quoted(file)} to which it is lent` : '';
    return [
      diagnostic(
        'example-out-of-range',
        place,
        `example ${index + 1} has the note ${spell(outside.pitch)}, outside the range ${spell(low)} to ${spell(high)}${lent}`,
        lent === ''
          ? 'give it a note that the instrument has'
          : "give it a note that all instruments have, or the map examples of its own, which take the place of the base's",
      ),
    ];
  });
};
