import type { ArticulationMap } from '../map/index.js';
import { type MidiEvent, type Part, type Song, type Track, trackOfObjects } from '../midi/index.js';
import { copiedTypes } from './copied.js';
import { contentOf, effectsOf } from './effects.js';
import { isNote, isStrike } from './pairs.js';
import { unsentNote } from './sent-music.js';

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
  const isSwitch = switchFinder(map);
  const routed = routedChannels(map);
  const events: MidiEvent[] = [];
  const ticks: number[] = [];
  track.events.forEach((event, index) => {
    const tick = track.ticks[index] ?? 0;
    const isRouted = 'channel' in event && routed.has(event.channel) && event.channel !== part.channel;
    const isOurs = isRouted || ('channel' in event && event.channel === part.channel);
    if (isOurs && isSwitch(event)) return;
    if (isRouted && copiedTypes.has(event.type)) return;
    const deltaTime = tick - (ticks.at(-1) ?? 0);
    const moved = { ...event, deltaTime };
    if (isOurs && isNote(moved)) events.push({ ...unsentNote(moved, map), channel: part.channel });
    else events.push(moved);
    ticks.push(tick);
  });
  return trackOfObjects(track.number, track.name, events, ticks);
}

/**
 * The channel (0–15) that a part of a compiled track had before: the lowest that has melody notes and is none of those
 * to which the map sends notes. Where all notes went to such channels, nothing in the file tells; then it is the lowest
 * other channel that has events at all (the part's controllers stay there), else the lowest with notes.
 */
export function ownChannel(track: Track, map: ArticulationMap): number | undefined {
  const routed = routedChannels(map);
  const keys = new Set(effectsOf(map).flatMap(({ key }) => key ?? []));
  const lowest = (isPicked: (event: MidiEvent & { readonly channel: number }) => boolean) =>
    track.events.reduce<number | undefined>((found, event) => {
      if (!('channel' in event) || event.type === 'channelPrefix' || !isPicked(event)) return found;
      return found === undefined || event.channel < found ? event.channel : found;
    }, undefined);
  const isMelody = (event: MidiEvent) => isStrike(event) && !keys.has(event.noteNumber);
  return (
    lowest((event) => isMelody(event) && !routed.has(event.channel)) ??
    lowest(({ channel }) => !routed.has(channel)) ??
    lowest(isMelody)
  );
}

function routedChannels(map: ArticulationMap): ReadonlySet<number> {
  return new Set(effectsOf(map).flatMap(({ channel }) => channel ?? []));
}

function switchFinder(map: ArticulationMap): (event: MidiEvent) => boolean {
  const all = new Set(effectsOf(map).flatMap(({ sent }) => sent));
  return (event) => {
    const content = contentOf(event);
    return content !== undefined && all.has(content);
  };
}
