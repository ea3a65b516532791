import type { Decision } from '../decide/decision.js';
import type { Diagnostic } from '../../diagnostics/diagnostic.js';
import type { Line } from '../../midi/line.js';
import type { ArticulationMap } from '../../map/types.js';
import type { Track } from '../../midi/song.js';
import { slotWatcher } from '../switching/foreign.js';
import { beatlessFractions } from './beatless.js';
import { channelsTaken } from './channel-taken.js';
import { notesAsSwitches } from './notes-as-switches.js';
import { notesOutOfRange } from './out-of-range.js';
import { switchesInInput } from './switches-in-input.js';

export { sharedChannels } from './shared-channels.js';

/** Everything in which a map and a part of the music get in each other's way; errors would make the output wrong. */
export function collisions(
  track: Track,
  line: Line,
  decisions: readonly Decision[],
  map: ArticulationMap,
): readonly Diagnostic[] {
  return [
    ...beatlessFractions(line, map),
    ...notesAsSwitches(line, map),
    ...channelsTaken(track, line, decisions, map),
    ...notesOutOfRange(line, map),
    ...switchesInInput(track, line, slotWatcher(map)),
  ];
}
