import { type Diagnostic, diagnostic } from '../../diagnostics/index.js';
import { type ArticulationMap, channelFor } from '../../map/index.js';
import { type Line, musicPlace } from '../../midi/index.js';
import type { Decision } from '../decide/index.js';

interface Sharing {
  readonly line: Line;
  readonly decisions: readonly Decision[];
  readonly map: ArticulationMap;
}

/** channel-taken: two parts of one track would send notes to the same channel, where they could not be told apart. */
export function sharedChannels(parts: readonly Sharing[]): readonly Diagnostic[] {
  const users = new Map<number, Sharing>();
  return parts.flatMap((part): Diagnostic[] => {
    const { line, decisions, map } = part;
    const channelOf = ({ articulation }: Decision) => channelFor(map, articulation, line.part.channel);
    const clash = decisions.find((decision) => users.has(channelOf(decision)));
    for (const decision of decisions) {
      const channel = channelOf(decision);
      if (!users.has(channel)) users.set(channel, part);
    }
    if (!clash) return [];
    const channel = channelOf(clash);
    const other = users.get(channel)?.line.part.channel ?? 0;
    return [
      diagnostic(
        'channel-taken',
        musicPlace(line, clash.note.tick),
        `the parts on channels ${other + 1} and ${line.part.channel + 1} would both send notes to channel ${channel + 1}`,
        '--channel NUMBER compiles one of them; put the other on a track of its own',
      ),
    ];
  });
}
