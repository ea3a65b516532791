import type { ArticulationMap } from '../map/index.js';
import { type MidiEvent, type Track, trackOfObjects } from '../midi/index.js';
import type { MeantNote } from './expected-notes.js';
import type { Sound } from './library.js';
import { isNote, isStrike } from './pairs.js';
import type { Stage } from './part.js';

/** The key on which a library is sent a written pitch: the sound's own, else the pitch, moved as the map says. */
export function sentKey({ transpose }: ArticulationMap, sound: Sound | undefined, pitch: number): number {
  return sound?.key ?? keyBeside(pitch, transpose);
}

function keyBeside(pitch: number, semitones: number): number {
  const key = pitch + semitones;
  return key < 0 || key > 127 ? pitch : key;
}

/** The velocity that a played one becomes: 1–127 go evenly into the range that picks the sound. */
export function sentVelocity(sound: Sound | undefined, played: number): number {
  if (!sound?.velocities) return played;
  const [least, most] = sound.velocities;
  // The nearest whole number, halves upwards.
  return least + Math.floor((2 * (played - 1) * (most - least) + 126) / 252);
}

/** The notes that are meant, as they arrive: each on its key. */
export function meantAsSent({
  meant,
  map,
  library,
}: Pick<Stage, 'meant' | 'map' | 'library'>): readonly MeantNote[] {
  if (!sendsOtherwise(map)) return meant;
  return meant.map((note) => ({
    ...note,
    pitch: sentKey(map, library.sounds.get(note.articulation), note.pitch),
  }));
}

/**
 * The music of a track as it is to be sent: notes on their keys and with their velocities, each release on the key of the
 * earliest open note of its pitch, pressure on the key of the latest note of its pitch; what belongs to no note moved as
 * the map says. Every event keeps its index.
 */
export function musicAsSent(track: Track, stages: readonly Stage[]): Track {
  const senders = new Map(
    stages.filter(({ map }) => sendsOtherwise(map)).map((stage) => [stage.part.channel, sender(stage)]),
  );
  if (senders.size === 0) return track;
  const events = track.events.map((event) =>
    'channel' in event ? (senders.get(event.channel)?.(event) ?? event) : event,
  );
  return trackOfObjects(track.number, track.name, events, track.ticks);
}

function sendsOtherwise({ transpose, articulations }: ArticulationMap): boolean {
  return (
    transpose !== 0 ||
    [...articulations.values()].some(({ key, velocity }) => key !== undefined || velocity !== undefined)
  );
}

/** Sends the events of a part's channel, one after another. */
function sender({ map, library, meant }: Stage): (event: MidiEvent) => MidiEvent {
  const sounds = new Map(
    meant.map(({ onOrdinal, articulation }) => [onOrdinal, library.sounds.get(articulation)]),
  );
  const open = new Map<number, number[]>();
  const latest = new Map<number, number>();
  let ordinal = 0;
  return (event) => {
    if (event.type === 'noteAftertouch')
      return {
        ...event,
        noteNumber: latest.get(event.noteNumber) ?? sentKey(map, undefined, event.noteNumber),
      };
    if (!isNote(event)) return event;
    const { noteNumber: pitch } = event;
    const waiting = open.get(pitch) ?? [];
    open.set(pitch, waiting);
    if (!isStrike(event)) return { ...event, noteNumber: waiting.shift() ?? sentKey(map, undefined, pitch) };
    const sound = sounds.get(ordinal++);
    const key = sentKey(map, sound, pitch);
    waiting.push(key);
    latest.set(pitch, key);
    return { ...event, noteNumber: key, velocity: sentVelocity(sound, event.velocity) };
  };
}

/**
 * A note of a compiled file as it was written, as far as the file tells: moved back, unless it stands on a sound's own
 * key, and with the velocity that was laid into the range of the only sound that it can be.
 */
export function unsentNote<E extends Extract<MidiEvent, { type: 'noteOn' | 'noteOff' }>>(
  event: E,
  { transpose, articulations }: ArticulationMap,
): E {
  const all = [...articulations.values()];
  const isOwnKey = all.some(({ key }) => key === event.noteNumber);
  const noteNumber = isOwnKey ? event.noteNumber : keyBeside(event.noteNumber, -transpose);
  if (!isStrike(event)) return { ...event, noteNumber };
  const possible = all.filter(
    ({ key, velocity: { into: [least, most] = [1, 127] } = {} }) =>
      (isOwnKey ? key === event.noteNumber : key === undefined) &&
      event.velocity >= least &&
      event.velocity <= most,
  );
  const [least, most] = (possible.length === 1 ? possible[0]?.velocity?.into : undefined) ?? [1, 127];
  const share = most === least ? 0.5 : (event.velocity - least) / (most - least);
  return { ...event, noteNumber, velocity: Math.round(1 + share * 126) };
}
