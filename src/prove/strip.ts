import type { ArticulationMap, SwitchMessage } from '../map/index.js';
import type { MidiEvent, Part, Song, Track } from '../midi/index.js';
import { trackOfObjects } from '../midi/index.js';
import { copiedTypes } from './copied.js';
import { isNote, isStrike } from './pairs.js';

/**
 * The part's track without the switches of its map, for deciding anew what its notes are meant to sound with. Taken out
 * are notes on switch keys; controllers, banks and programs that say exactly what the map sends; and, on the channels to
 * which the map sends notes, the copies of controllers, bends and pressure. Notes there come back to the part's own
 * channel. What a player sent of the same kind with the same value goes too, so the track is not the recording.
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
    events.push(
      isRouted && isNote(event) ? { ...event, deltaTime, channel: part.channel } : { ...event, deltaTime },
    );
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
  const keys = new Set(messagesOf(map).flatMap((message) => (message.kind === 'note' ? [message.key] : [])));
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

function messagesOf({ articulations }: ArticulationMap): readonly SwitchMessage[] {
  return [...articulations.values()].flatMap((articulation) => articulation.switch);
}

function routedChannels(map: ArticulationMap): ReadonlySet<number> {
  return new Set(messagesOf(map).flatMap((message) => (message.kind === 'channel' ? [message.channel] : [])));
}

function switchFinder(map: ArticulationMap): (event: MidiEvent) => boolean {
  const sent = new Set(
    messagesOf(map).flatMap((message): readonly string[] => {
      if (message.kind === 'note') return [`key ${message.key}`];
      if (message.kind === 'controller') return [`controller ${message.controller} ${message.value}`];
      if (message.kind !== 'program') return [];
      const [most, least] = message.bank ?? [];
      const bank = most === undefined ? [] : [`controller 0 ${most}`, `controller 32 ${least}`];
      return [`program ${message.program}`, ...bank];
    }),
  );
  return (event) => {
    if (isNote(event)) return sent.has(`key ${event.noteNumber}`);
    if (event.type === 'programChange') return sent.has(`program ${event.programNumber}`);
    return event.type === 'controller' && sent.has(`controller ${event.controllerType} ${event.value}`);
  };
}
