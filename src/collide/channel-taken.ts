import { musicPlace } from '../diagnose/place.js';
import type { Decision } from '../model/decision.js';
import type { Diagnostic } from '../model/diagnostic.js';
import type { Line } from '../model/line.js';
import type { ArticulationMap } from '../model/map.js';
import { channelFor } from '../model/slot.js';
import type { Track } from '../model/song.js';

/** channel-taken: notes would go out on a channel on which the track has notes of another part. */
export function channelsTaken(
  track: Track,
  line: Line,
  decisions: readonly Decision[],
  map: ArticulationMap,
): readonly Diagnostic[] {
  const own = line.part.channel;
  const taken = new Set<number>();
  for (const event of track.events)
    if (event.type === 'noteOn' && event.channel !== own) taken.add(event.channel);
  const reported = new Set<string>();
  return decisions.flatMap(({ articulation, note }): Diagnostic[] => {
    if (taken.size === 0 || reported.has(articulation)) return [];
    const channel = channelFor(map, articulation, own);
    if (!taken.has(channel)) return [];
    reported.add(articulation);
    return [
      {
        code: 'channel-taken',
        severity: 'error',
        place: musicPlace(line, note.tick),
        message: `${articulation} goes out on channel ${channel + 1}, where the track has other notes`,
        hint: 'put the other notes on a track of their own',
      },
    ];
  });
}
