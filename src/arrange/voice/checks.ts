import type { ArrangeRemark } from '../types.js';
import type { VoiceOptions, VoicePart } from './types.js';

/** What is wrong with the parts that were asked for; all of it. */
export function faultsOfParts(
  parts: readonly VoicePart[],
  { tune }: Pick<VoiceOptions, 'tune'>,
): readonly ArrangeRemark[] {
  if (parts.length === 0) {
    const hint = 'name at least one part with its range';
    return [{ code: 'no-parts', message: 'there are no parts to lay chords out for', hint }];
  }
  const names = parts.map(({ name }) => name);
  const faults = parts.flatMap(({ name, range }, index): ArrangeRemark[] => {
    const place = { kind: 'part', name } as const;
    const found: ArrangeRemark[] = [];
    if (names.indexOf(name) < index) {
      const message = `two parts are named "${name}"`;
      found.push({
        code: 'same-part',
        place,
        message,
        hint: 'give each a name of its own',
      });
    }
    const isRange = [range.low, range.high].every(
      (pitch) => Number.isInteger(pitch) && pitch >= 0 && pitch <= 127,
    );
    if (!isRange || range.low > range.high) {
      const message = `the range of "${name}" is ${range.low} to ${range.high}`;
      const hint = 'it goes from a lower to a higher MIDI note, 0 to 127';
      found.push({ code: 'part-range', place, message, hint });
    }
    return found;
  });
  if (typeof tune !== 'object' || names.includes(tune.part)) return faults;
  const message = `the tune is to lie in "${tune.part}", which is no part`;
  return [...faults, { code: 'unknown-part', message, hint: `the parts are: ${names.join(', ')}` }];
}
