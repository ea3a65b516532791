import { type Diagnostic, diagnostic } from '../../diagnostics/index.js';
import { type ArticulationMap, channelFor } from '../../map/index.js';
import { channelOf, type Events, isNoteOn, type Line, musicPlace } from '../../midi/index.js';
import type { Decided } from '../decide/index.js';

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
  const reported = new Set<string>();
  if (taken.size === 0) return [];
  return decided.decisions.flatMap(({ articulation, note }): Diagnostic[] => {
    if (reported.has(articulation)) return [];
    const channel = channelFor(map, articulation, own);
    if (!taken.has(channel)) return [];
    reported.add(articulation);
    return [
      diagnostic(
        'channel-taken',
        musicPlace(line, note.tick),
        `${articulation} goes out on channel ${channel + 1}, where the track has other notes`,
        'put the other notes on a track of their own',
      ),
    ];
  });
}
