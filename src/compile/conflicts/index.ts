// A map and the music in each other's way.
import type { Diagnostic } from '../../diagnostics/index.js';
import type { ArticulationMap } from '../../map/index.js';
import type { Events, Line } from '../../midi/index.js';
import type { Decided } from '../decide/index.js';
import { aspectWatcher } from '../switching/index.js';
import { beatlessFractions } from './beatless.js';
import { channelsTaken } from './channel-taken.js';
import { notesAsSwitches } from './notes-as-switches.js';
import { notesOutOfRange } from './out-of-range.js';
import { switchesInInput } from './switches-in-input.js';

export { sharedChannels } from './shared-channels.js';
export { sharedKeys } from './shared-keys.js';

/** Everything in which a map and a part of the music get in each other's way; errors would make the output wrong. */
export function collisions(
  events: Events,
  line: Line,
  decided: Decided,
  map: ArticulationMap,
): readonly Diagnostic[] {
  return [
    ...beatlessFractions(line, map),
    ...notesAsSwitches(line, decided, map),
    ...channelsTaken(events, line, decided, map),
    ...notesOutOfRange(line, decided, map),
    ...switchesInInput(events, line, map, aspectWatcher(map)),
  ];
}
