import type { Harmony, SoundingNote } from '../model/harmony.js';
import type { SheetPart } from '../model/sheet.js';
import type { Clock } from '../time/clock.js';
import type { Remark } from './index.js';

/** What is to be observed of voicing and register. */
export function observationsOn(
  _parts: readonly SheetPart[],
  _notes: readonly SoundingNote[],
  _harmony: readonly Harmony[],
  _clock: Clock,
): readonly Remark[] {
  return [];
}
