import type { ArticulationMap } from '../map/index.js';
import { channelOf, firstData, isChannelMessage, isNoteOn, type Part, type Track } from '../midi/index.js';
import { effectsOf } from './effects.js';
import { libraryOf } from './library.js';
import { isNote } from './pairs.js';
import { Sampler } from './sampler.js';

/**
 * What a library would sound with at each note of a track that has switches in it: the name of an articulation, or
 * undefined where nothing of what was sent selects one. In file order of the note-ons of the part, on its own channel and
 * on those to which the map sends notes, which is the order that they have once switches are stripped (`stripSwitches`).
 * Of several articulations that are selected, the one that needs most is heard.
 *
 * @param part its channel is the one that the part had before it was compiled: see `ownChannel`
 */
export function heardIn(track: Track, part: Part, map: ArticulationMap): readonly (string | undefined)[] {
  const library = libraryOf(map, part.channel);
  const channels = new Set([part.channel, ...effectsOf(map).flatMap(({ channel }) => channel ?? [])]);
  const events = track.columns;
  const sampler = new Sampler(library, events);
  const heard: (string | undefined)[] = [];
  for (let event = 0; event < events.length; event++) {
    if (isChannelMessage(events, event) && !channels.has(channelOf(events, event))) continue;
    const isMelody = isNote(events, event) && !library.keyAspects.has(firstData(events, event));
    if (!isMelody) sampler.hear(event);
    else if (isNoteOn(events, event)) heard.push(sampler.selected(event)[0]?.name);
  }
  return heard;
}
