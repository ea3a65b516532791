import { type Diagnostic, diagnostic } from '../../diagnostics/index.js';
import { type ArticulationMap, channelFor } from '../../map/index.js';
import { channelOf, type Events, isNoteOn, type Line, musicPlace, noteTick } from '../../midi/index.js';
import { articulationOf, byArticulation, type Decided } from '../decide/index.js';

/** channel-taken: notes would go out on a channel on which the track has notes of another part. */
export function channelsTaken(
  events: Events,
  line: Line,
  decided: Decided,
  map: ArticulationMap,
): readonly Diagnostic[] {
  const own = line.part.channel;
  const taken = new Set<number>();
  for (let event = 0; event < events.length; event++)
    if (isNoteOn(events, event) && channelOf(events, event) !== own) taken.add(channelOf(events, event));
  if (taken.size === 0) return [];
  const sentOn = byArticulation(decided, (name) => channelFor(map, name, own));
  const found = new Map<string, Diagnostic>();
  for (let row = 0; row < decided.length; row++) {
    const [articulation, channel] = [articulationOf(decided, row), sentOn(row)];
    if (found.has(articulation) || !taken.has(channel)) continue;
    found.set(
      articulation,
      diagnostic(
        'channel-taken',
        musicPlace(line, noteTick(decided, row)),
        `${articulation} goes out on channel ${channel + 1}, where the track has other notes`,
        'put the other notes on a track of their own',
      ),
    );
  }
  return [...found.values()];
}
