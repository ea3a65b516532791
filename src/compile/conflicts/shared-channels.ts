import { type Diagnostic, diagnostic } from '../../diagnostics/index.js';
import { type ArticulationMap, channelFor } from '../../map/index.js';
import { type Line, musicPlace, noteTick } from '../../midi/index.js';
import { byArticulation, type Decided } from '../decide/index.js';

interface Sharing {
  readonly line: Line;
  readonly decided: Decided;
  readonly map: ArticulationMap;
}

/** channel-taken: two parts of one track would send notes to the same channel, where they could not be told apart. */
export function sharedChannels(parts: readonly Sharing[]): readonly Diagnostic[] {
  const users = new Map<number, Sharing>();
  return parts.flatMap((part): Diagnostic[] => {
    const { line, decided, map } = part;
    const channelOf = byArticulation(decided, (name) => channelFor(map, name, line.part.channel));
    let clash: { readonly channel: number; readonly tick: number } | undefined;
    for (let row = 0; row < decided.length; row++) {
      const channel = channelOf(row);
      const user = users.get(channel);
      if (!user) users.set(channel, part);
      else if (user !== part) clash ??= { channel, tick: noteTick(decided, row) };
    }
    if (!clash) return [];
    const { channel, tick } = clash;
    const other = users.get(channel)?.line.part.channel ?? 0;
    return [
      diagnostic(
        'channel-taken',
        musicPlace(line, tick),
        `the parts on channels ${other + 1} and ${line.part.channel + 1} would both send notes to channel ${channel + 1}`,
        '--channel NUMBER compiles one of them; put the other on a track of its own',
      ),
    ];
  });
}
