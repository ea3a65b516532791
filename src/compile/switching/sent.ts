import { type Articulation, type ArticulationMap, channelFor } from '../../map/index.js';
import type { MidiEvent, Part, Track } from '../../midi/index.js';
import type { Decision } from '../decide/index.js';

/** How a note is sent to the library. */
export interface SentNote {
  /** 0–15. */
  readonly channel: number;
  /** The MIDI note: the articulation's own key, else what is written, moved by the map's `transpose`. */
  readonly pitch: number;
  /** 1–127: what was played, laid into the articulation's range where it has one. */
  readonly velocity: number;
}

/** A release of the music that ends none of its notes. */
export interface StrayRelease {
  /** Its index in the track. */
  readonly index: number;
  readonly tick: number;
  /** The key on which it goes out. */
  readonly pitch: number;
}

/** The notes of a part as they are sent, and what that makes of the track's events, by index. */
export interface Sent {
  /** For each decision. */
  readonly notes: readonly SentNote[];
  /** The channel (0–15), pitch and velocity of events that have others than they had. */
  readonly channels: ReadonlyMap<number, number>;
  readonly pitches: ReadonlyMap<number, number>;
  readonly velocities: ReadonlyMap<number, number>;
  /** The same decisions with releases as the library pairs them: the first on a key ends its earliest open note. */
  readonly decisions: readonly Decision[];
  /** Releases of the music without a note, which go out on the part's own channel. */
  readonly strays: readonly StrayRelease[];
  /** Notes that need a key which another note, written elsewhere, holds or lets go: indices of decisions. */
  readonly shared: readonly number[];
}

/** The key on which a written pitch is sent; it stays where it would leave the keys that MIDI has. */
export function sentPitch(
  { transpose }: ArticulationMap,
  articulation: Articulation | undefined,
  pitch: number,
): number {
  if (articulation?.key !== undefined) return articulation.key;
  const moved = pitch + transpose;
  return moved >= 0 && moved <= 127 ? moved : pitch;
}

/** Lays a played velocity of 1–127 into an articulation's range: 1 becomes the least, 127 the most. */
export function sentVelocity(articulation: Articulation | undefined, velocity: number): number {
  if (!articulation?.velocity) return velocity;
  const [least, most] = articulation.velocity.into;
  return Math.round(least + ((velocity - 1) * (most - least)) / 126);
}

type NoteOn = Extract<MidiEvent, { type: 'noteOn' }>;
type NoteOff = Extract<MidiEvent, { type: 'noteOff' }>;

/** Works out how the notes of a part are sent. */
export function sentNotes(
  track: Track,
  part: Part,
  decisions: readonly Decision[],
  map: ArticulationMap,
): Sent {
  const channelOf = new Map(
    [...map.articulations.keys()].map((name) => [name, channelFor(map, name, part.channel)]),
  );
  const notes = decisions.map(({ articulation: name, note }): SentNote => {
    const articulation = map.articulations.get(name);
    const event = track.events[note.onIndex];
    const played = event?.type === 'noteOn' ? event.velocity : note.velocity;
    return {
      channel: channelOf.get(name) ?? part.channel,
      pitch: sentPitch(map, articulation, note.pitch),
      velocity: sentVelocity(articulation, played),
    };
  });
  const changes = new Changes();
  const noteAt = new Map(decisions.map(({ note }, index) => [note.onIndex, index]));
  const written = new WrittenNotes();
  const keys = new LibraryKeys();
  const strays: StrayRelease[] = [];
  const strike = (event: NoteOn, index: number) => {
    const of = noteAt.get(index);
    const sent = notes[of ?? -1];
    if (of === undefined || !sent) return;
    written.strike(event.noteNumber, of, sent.pitch);
    keys.strike(of, sent, event.noteNumber);
    changes.send(index, event, sent);
    changes.strike(index, event, sent);
  };
  const release = (event: NoteOff, index: number) => {
    const of = written.release(event.noteNumber);
    const stray = { channel: part.channel, pitch: sentPitch(map, undefined, event.noteNumber) };
    const sent = notes[of ?? -1] ?? stray;
    if (of === undefined) strays.push({ index, tick: track.ticks[index] ?? 0, pitch: sent.pitch });
    keys.release(index, sent, of);
    changes.send(index, event, sent);
  };
  track.events.forEach((event, index) => {
    if (!('channel' in event) || event.channel !== part.channel) return;
    if (event.type === 'noteOn') strike(event, index);
    else if (event.type === 'noteOff') release(event, index);
    else if (event.type === 'noteAftertouch') {
      // Pressure on a key goes where its latest note went.
      const pitch = written.latest(event.noteNumber) ?? sentPitch(map, undefined, event.noteNumber);
      changes.send(index, event, { channel: event.channel, pitch });
    }
  });
  return {
    notes,
    channels: changes.channels,
    pitches: changes.pitches,
    velocities: changes.velocities,
    decisions: decisions.map((decision, index) => keys.paired(decision, index, track)),
    strays,
    shared: [...keys.shared].sort((a, b) => a - b),
  };
}

class Changes {
  readonly channels = new Map<number, number>();
  readonly pitches = new Map<number, number>();
  readonly velocities = new Map<number, number>();

  send(
    index: number,
    event: { readonly channel: number; readonly noteNumber: number },
    { channel, pitch }: Pick<SentNote, 'channel' | 'pitch'>,
  ): void {
    if (channel !== event.channel) this.channels.set(index, channel);
    if (pitch !== event.noteNumber) this.pitches.set(index, pitch);
  }

  strike(index: number, event: { readonly velocity: number }, { velocity }: SentNote): void {
    if (velocity !== event.velocity) this.velocities.set(index, velocity);
  }
}

/** The notes as they are written: a release ends the earliest open note of its pitch. */
class WrittenNotes {
  readonly #open = new Map<number, { readonly of: number[]; next: number }>();
  readonly #latest = new Map<number, number>();

  strike(pitch: number, of: number, sent: number): void {
    const open = this.#open.get(pitch);
    if (open) open.of.push(of);
    else this.#open.set(pitch, { of: [of], next: 0 });
    this.#latest.set(pitch, sent);
  }

  /** The decision of the note that ends; undefined where none is open. */
  release(pitch: number): number | undefined {
    const open = this.#open.get(pitch);
    const of = open?.of[open.next];
    if (open && of !== undefined) open.next += 1;
    return of;
  }

  /** The key on which the latest note of a pitch was sent. */
  latest(pitch: number): number | undefined {
    return this.#latest.get(pitch);
  }
}

interface OpenKey {
  readonly notes: { readonly of: number; readonly written: number }[];
  next: number;
}

/** The keys of a library: a release ends the earliest open note of its key, whatever note was meant. */
class LibraryKeys {
  readonly shared = new Set<number>();
  readonly #open = new Map<number, OpenKey>();
  /** The release of each note, by decision. */
  readonly #offs = new Map<number, number>();

  strike(of: number, { channel, pitch }: SentNote, written: number): void {
    const key = this.#keyAt(channel, pitch);
    if (key.notes.slice(key.next).some((other) => other.written !== written)) this.shared.add(of);
    key.notes.push({ of, written });
  }

  release(
    index: number,
    { channel, pitch }: Pick<SentNote, 'channel' | 'pitch'>,
    meant: number | undefined,
  ): void {
    const key = this.#keyAt(channel, pitch);
    const ended = key.notes[key.next];
    if (!ended) return;
    key.next += 1;
    this.#offs.set(ended.of, index);
    if (meant !== undefined && ended.of !== meant) this.shared.add(meant);
    if (meant === undefined) this.shared.add(ended.of);
  }

  paired(decision: Decision, of: number, { ticks }: Track): Decision {
    const { note } = decision;
    const offIndex = this.#offs.get(of) ?? -1;
    if (offIndex === note.offIndex) return decision;
    const endTick = Math.max(note.tick, ticks[offIndex < 0 ? ticks.length - 1 : offIndex] ?? note.endTick);
    return { ...decision, note: { ...note, offIndex, endTick } };
  }

  #keyAt(channel: number, pitch: number): OpenKey {
    const known = this.#open.get(channel * 128 + pitch) ?? { notes: [], next: 0 };
    this.#open.set(channel * 128 + pitch, known);
    return known;
  }
}
