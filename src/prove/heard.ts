import type { ArticulationMap } from '../map/index.js';
import type { Part, Track } from '../midi/index.js';
import { effectsOf } from './effects.js';
import { libraryOf } from './library.js';
import { isNote, isStrike } from './pairs.js';
import { samplerOf } from './sampler.js';

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
  const sampler = samplerOf(library);
  const heard: (string | undefined)[] = [];
  track.events.forEach((event, index) => {
    if ('channel' in event && !channels.has(event.channel)) return;
    const isMelody = isNote(event) && !library.keyAspects.has(event.noteNumber);
    if (!isMelody) sampler.hear(event, track.ticks[index] ?? 0);
    else if (isStrike(event)) {
      const { channel, noteNumber: pitch, velocity } = event;
      heard.push(sampler.selected({ channel, pitch, velocity })[0]);
    }
  });
  return heard;
}
