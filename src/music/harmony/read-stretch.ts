import type { Reading } from './fit.js';
import type { Stretch } from './merge.js';

/** A stretch with the chord that is read into it; null where none fits. */
export interface ReadStretch {
  readonly stretch: Stretch;
  readonly reading: Reading | null;
}
