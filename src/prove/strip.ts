import type { ArticulationMap } from '../map/index.js';
import {
  channelOf,
  type Events,
  firstData,
  isChannelMessage,
  isNoteOn,
  messageAt,
  type Part,
  type Song,
  type Track,
  trackOf,
  withMessages,
  withoutEvents,
} from '../midi/index.js';
import { contentOf } from './content.js';
import { isCopied } from './copied.js';
import { effectsOf } from './effects.js';
import { isNote } from './pairs.js';
import { unsentNotes } from './sent-music.js';

/**
 * The part's track without the switches of its map, for deciding anew what its notes are meant to sound with. Taken out
 * are notes on switch keys; controllers, banks and programs that say exactly what the map sends; and, on the channels to
 * which the map sends notes, the copies of controllers, bends and pressure. Notes there come back to the part's own
 * channel, and all to the pitches and velocities that were written, as far as the file tells. What a player sent of the same kind with the same value goes too, so the track is not the recording.
 *
 * @param part its channel is the one that the part had before it was compiled: see `ownChannel`
 * @returns undefined where the song has no such track
 */
export function stripSwitches(output: Song, part: Part, map: ArticulationMap): Track | undefined {
  const track = output.tracks[part.track - 1];
  if (!track) return undefined;
  const { columns } = track;
  const isSwitch = switchFinder(columns, map);
  const routed = routedChannels(map);
  const kept = withoutEvents(columns, (event) => {
    if (!isChannelMessage(columns, event)) return false;
    const channel = channelOf(columns, event);
    const isElsewhere = channel !== part.channel;
    if (isElsewhere && !routed.has(channel)) return false;
    return isSwitch(event) || (isElsewhere && isCopied(columns, event));
  });
  const unsent = unsentNotes(map, part.channel);
  const music = withMessages(kept, (event) => {
    const channel = channelOf(kept, event);
    const isOurs = isNote(kept, event) && (channel === part.channel || routed.has(channel));
    return isOurs ? unsent(messageAt(kept, event)) : undefined;
  });
  return trackOf(track.number, track.name, music);
}

/**
 * The channel (0–15) that a part of a compiled track had before: the lowest that has melody notes and is none of those
 * to which the map sends notes. Where all notes went to such channels, nothing in the file tells; then it is the lowest
 * other channel that has events at all (the part's controllers stay there), else the lowest with notes.
 */
export function ownChannel(track: Track, map: ArticulationMap): number | undefined {
  const { columns } = track;
  const routed = routedChannels(map);
  const keys = new Set(effectsOf(map).flatMap(({ key }) => key ?? []));
  const used = new Set<number>();
  const melodic = new Set<number>();
  for (let event = 0; event < columns.length; event++) {
    if (!isChannelMessage(columns, event)) continue;
    used.add(channelOf(columns, event));
    if (isNoteOn(columns, event) && !keys.has(firstData(columns, event)))
      melodic.add(channelOf(columns, event));
  }
  const lowest = (channels: number[]) => channels.sort((a, b) => a - b)[0];
  const unrouted = (channels: ReadonlySet<number>) => [...channels].filter((channel) => !routed.has(channel));
  return lowest(unrouted(melodic)) ?? lowest(unrouted(used)) ?? lowest([...melodic]);
}

function routedChannels(map: ArticulationMap): ReadonlySet<number> {
  return new Set(effectsOf(map).flatMap(({ channel }) => channel ?? []));
}

function switchFinder(events: Events, map: ArticulationMap): (event: number) => boolean {
  const all = new Set(effectsOf(map).flatMap(({ sent }) => sent));
  return (event) => all.has(contentOf(events, event));
}
