import { firstNote, noteTick } from '../../midi/index.js';
import type { Performance } from './types.js';

/** The tick of the first note of each onset. */
export function onsetTicks({ notes, onsets }: Performance): readonly number[] {
  return Array.from({ length: onsets.length }, (_, onset) => noteTick(notes, firstNote(onsets, onset)));
}
