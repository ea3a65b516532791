import { type Articulation, type ArticulationMap, channelFor } from '../../map/index.js';
import {
  changedNote,
  type Events,
  firstData,
  lastTick,
  type Part,
  secondData,
  statusOf,
  tickOf,
} from '../../midi/index.js';
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

/** Works out how the notes of a part are sent. */
export function sentNotes(
  events: Events,
  part: Part,
  decisions: readonly Decision[],
  map: ArticulationMap,
): Sent {
  const channelOf = new Map(
    [...map.articulations.keys()].map((name) => [name, channelFor(map, name, part.channel)]),
  );
  const noteAt = new Int32Array(events.length).fill(-1);
  const notes = decisions.map(({ articulation: name, note }, index): SentNote => {
    const articulation = map.articulations.get(name);
    const on = note.onIndex;
    noteAt[on] = index;
    return {
      channel: channelOf.get(name) ?? part.channel,
      pitch: sentPitch(map, articulation, note.pitch),
      velocity: sentVelocity(articulation, secondData(events, on)),
    };
  });
  const changes = new Changes();
  const written = new WrittenNotes();
  const keys = new LibraryKeys();
  const strays: StrayRelease[] = [];
  const strike = (event: number, key: number, velocity: number) => {
    const of = noteAt[event] ?? -1;
    const sent = notes[of];
    if (!sent) return;
    written.strike(key, of, sent.pitch);
    keys.strike(of, sent, key);
    changes.send(event, part.channel, key, sent);
    if (sent.velocity !== velocity) changes.velocities.set(event, sent.velocity);
  };
  const release = (event: number, key: number) => {
    const of = written.release(key);
    const sent = notes[of ?? -1] ?? { channel: part.channel, pitch: sentPitch(map, undefined, key) };
    if (of === undefined) strays.push({ index: event, tick: tickOf(events, event), pitch: sent.pitch });
    keys.release(event, sent, of);
    changes.send(event, part.channel, key, sent);
  };
  const [off, on, pressure] = [0x80 | part.channel, 0x90 | part.channel, 0xa0 | part.channel];
  for (let event = 0; event < events.length; event++) {
    const status = statusOf(events, event);
    if (status !== off && status !== on && status !== pressure) continue;
    const key = firstData(events, event);
    const value = secondData(events, event);
    if (status === on && value > 0) strike(event, key, value);
    else if (status !== pressure) release(event, key);
    else {
      // Pressure on a key goes where its latest note went.
      const pitch = written.latest(key) ?? sentPitch(map, undefined, key);
      changes.send(event, part.channel, key, { channel: part.channel, pitch });
    }
  }
  return {
    notes,
    channels: changes.channels,
    pitches: changes.pitches,
    velocities: changes.velocities,
    decisions: decisions.map((decision, index) => keys.paired(decision, index, events)),
    strays,
    shared: [...keys.shared].sort((a, b) => a - b),
  };
}

class Changes {
  readonly channels = new Map<number, number>();
  readonly pitches = new Map<number, number>();
  readonly velocities = new Map<number, number>();

  /** Sends an event, that came on a channel and a key, to others. */
  send(event: number, channel: number, key: number, to: Pick<SentNote, 'channel' | 'pitch'>): void {
    if (to.channel !== channel) this.channels.set(event, to.channel);
    if (to.pitch !== key) this.pitches.set(event, to.pitch);
  }
}

/** The notes as they are written: a release ends the earliest open note of its pitch. */
class WrittenNotes {
  readonly #open: { readonly of: number[]; next: number }[] = [];
  readonly #latest: number[] = [];

  strike(pitch: number, of: number, sent: number): void {
    const open = this.#open[pitch];
    if (open) open.of.push(of);
    else this.#open[pitch] = { of: [of], next: 0 };
    this.#latest[pitch] = sent;
  }

  /** The decision of the note that ends; undefined where none is open. */
  release(pitch: number): number | undefined {
    const open = this.#open[pitch];
    const of = open?.of[open.next];
    if (open && of !== undefined) open.next += 1;
    return of;
  }

  /** The key on which the latest note of a pitch was sent. */
  latest(pitch: number): number | undefined {
    return this.#latest[pitch];
  }
}

interface OpenKey {
  readonly notes: { readonly of: number; readonly written: number }[];
  next: number;
}

/** The keys of a library: a release ends the earliest open note of its key, whatever note was meant. */
class LibraryKeys {
  readonly shared = new Set<number>();
  readonly #open: OpenKey[] = [];
  /** The release of each note, by decision. */
  readonly #offs: number[] = [];

  strike(of: number, { channel, pitch }: SentNote, written: number): void {
    const key = this.#keyAt(channel, pitch);
    for (let at = key.next; at < key.notes.length; at++)
      if (key.notes[at]?.written !== written) this.shared.add(of);
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
    this.#offs[ended.of] = index;
    if (meant !== undefined && ended.of !== meant) this.shared.add(meant);
    if (meant === undefined) this.shared.add(ended.of);
  }

  paired(decision: Decision, of: number, events: Events): Decision {
    const { note } = decision;
    const offIndex = this.#offs[of] ?? -1;
    if (offIndex === note.offIndex) return decision;
    const end = offIndex < 0 ? lastTick(events) : tickOf(events, offIndex);
    return {
      ...decision,
      note: changedNote(note, { offIndex, endTick: Math.max(note.tick, end) }),
    };
  }

  #keyAt(channel: number, pitch: number): OpenKey {
    const place = channel * 128 + pitch;
    const key = this.#open[place] ?? { notes: [], next: 0 };
    this.#open[place] = key;
    return key;
  }
}
