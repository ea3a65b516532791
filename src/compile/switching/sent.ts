import { type Articulation, type ArticulationMap, channelFor } from '../../map/index.js';
import {
  type Events,
  firstData,
  lastTick,
  noteEnd,
  noteTick,
  OpenNotes,
  offOf,
  onOf,
  type Part,
  pitchOf,
  secondData,
  statusOf,
  tickOf,
  ticksUpTo,
} from '../../midi/index.js';
import type { DecidedNotes } from '../decide/index.js';

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

/** How notes are sent, in columns: a row for each decision. */
export class SentNotes {
  readonly channel: Uint8Array;
  readonly pitch: Uint8Array;
  readonly velocity: Uint8Array;

  constructor(length: number) {
    this.channel = new Uint8Array(length);
    this.pitch = new Uint8Array(length);
    this.velocity = new Uint8Array(length);
  }

  /** How one note is sent; undefined where there is no such row. */
  at(row: number): SentNote | undefined {
    const [channel, pitch, velocity] = [this.channel[row], this.pitch[row], this.velocity[row]];
    if (channel === undefined || pitch === undefined || velocity === undefined) return undefined;
    return { channel, pitch, velocity };
  }
}

/** The notes of a part as they are sent, and what that makes of the track's events, by index. */
export interface Sent {
  readonly notes: SentNotes;
  /** The channel (0–15), pitch and velocity of events that have others than they had. */
  readonly channels: ReadonlyMap<number, number>;
  readonly pitches: ReadonlyMap<number, number>;
  readonly velocities: ReadonlyMap<number, number>;
  /** The same rows with releases as the library pairs them: the first on a key ends its earliest open note. */
  readonly rows: DecidedNotes;
  /** Releases of the music without a note, which go out on the part's own channel. */
  readonly strays: readonly StrayRelease[];
  /** Notes that need a key which another note, written elsewhere, holds or lets go: their rows. */
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
export function sentNotes(events: Events, part: Part, rows: DecidedNotes, map: ArticulationMap): Sent {
  const sending = new Sending(events, part, rows, map);
  const [off, on, pressure] = [0x80 | part.channel, 0x90 | part.channel, 0xa0 | part.channel];
  for (let event = 0; event < events.length; event++) {
    const status = statusOf(events, event);
    if (status === on && secondData(events, event) > 0) sending.strike(event);
    else if (status === on || status === off) sending.release(event);
    else if (status === pressure) sending.press(event);
  }
  return sending.sent();
}

/** Goes through the notes of a part in the order of the file, and sends them. */
class Sending {
  readonly #events: Events;
  readonly #own: number;
  readonly #map: ArticulationMap;
  readonly #notes: SentNotes;
  /** The row of each note-on; −1 of other events. */
  readonly #rowAt: Int32Array;
  readonly #changes = new Changes();
  readonly #written: OpenNotes;
  readonly #keys: LibraryKeys;
  readonly #strays: StrayRelease[] = [];
  /** Where the latest note of each pitch went. */
  readonly #latest: Uint8Array;

  constructor(events: Events, part: Part, rows: DecidedNotes, map: ArticulationMap) {
    this.#events = events;
    this.#own = part.channel;
    this.#map = map;
    this.#notes = asSent(events, part, rows, map);
    this.#rowAt = new Int32Array(events.length).fill(-1);
    for (let row = 0; row < rows.length; row++) this.#rowAt[onOf(rows, row)] = row;
    this.#written = new OpenNotes(rows.length);
    this.#keys = new LibraryKeys(rows);
    this.#latest = Uint8Array.from({ length: 128 }, (_, key) => sentPitch(map, undefined, key));
  }

  strike(event: number): void {
    const row = this.#rowAt[event] ?? -1;
    if (row < 0) return;
    const key = firstData(this.#events, event);
    const pitch = this.#notes.pitch[row] ?? key;
    const channel = this.#notes.channel[row] ?? this.#own;
    this.#written.add(key, row);
    this.#latest[key] = pitch;
    this.#keys.strike(row, keyOf(channel, pitch));
    this.#changes.send(event, this.#own, key, channel, pitch);
    const velocity = this.#notes.velocity[row] ?? 0;
    if (velocity !== secondData(this.#events, event)) this.#changes.velocities.set(event, velocity);
  }

  release(event: number): void {
    const key = firstData(this.#events, event);
    const row = this.#written.take(key);
    const channel = this.#notes.channel[row] ?? this.#own;
    const pitch = this.#notes.pitch[row] ?? sentPitch(this.#map, undefined, key);
    if (row < 0) this.#strays.push({ index: event, tick: tickOf(this.#events, event), pitch });
    this.#keys.release(event, keyOf(channel, pitch), row);
    this.#changes.send(event, this.#own, key, channel, pitch);
  }

  /** Pressure on a key goes where its latest note went. */
  press(event: number): void {
    const key = firstData(this.#events, event);
    this.#changes.send(event, this.#own, key, this.#own, this.#latest[key] ?? key);
  }

  sent(): Sent {
    const { channels, pitches, velocities } = this.#changes;
    return {
      notes: this.#notes,
      channels,
      pitches,
      velocities,
      rows: this.#keys.paired(this.#events),
      strays: this.#strays,
      shared: [...this.#keys.shared].sort((a, b) => a - b),
    };
  }
}

function asSent(events: Events, part: Part, rows: DecidedNotes, map: ArticulationMap): SentNotes {
  const articulations = rows.names.map((name) => map.articulations.get(name));
  const channels = rows.names.map((name) => channelFor(map, name, part.channel));
  const { articulation: numbers, pitch, on } = rows;
  const sent = new SentNotes(rows.length);
  for (let row = 0; row < rows.length; row++) {
    const number = numbers[row] ?? 0;
    const articulation = articulations[number];
    sent.channel[row] = channels[number] ?? part.channel;
    sent.pitch[row] = sentPitch(map, articulation, pitch[row] ?? 0);
    sent.velocity[row] = sentVelocity(articulation, secondData(events, on[row] ?? 0));
  }
  return sent;
}

class Changes {
  readonly channels = new Map<number, number>();
  readonly pitches = new Map<number, number>();
  readonly velocities = new Map<number, number>();

  /** Sends an event, that came on a channel and a key, to others. */
  send(event: number, channel: number, key: number, toChannel: number, toKey: number): void {
    if (toChannel !== channel) this.channels.set(event, toChannel);
    if (toKey !== key) this.pitches.set(event, toKey);
  }
}

/** A key of a library: one of the 128 of one of its 16 channels. */
function keyOf(channel: number, pitch: number): number {
  return channel * 128 + pitch;
}

/** The keys of a library: a release ends the earliest open note of its key, whatever note was meant. */
class LibraryKeys {
  readonly shared = new Set<number>();
  readonly #rows: DecidedNotes;
  readonly #open: OpenNotes;
  /** The release of each note. */
  readonly #offs: Int32Array;

  constructor(rows: DecidedNotes) {
    this.#rows = rows;
    this.#open = new OpenNotes(rows.length);
    this.#offs = new Int32Array(rows.length).fill(-1);
  }

  strike(row: number, key: number): void {
    const written = pitchOf(this.#rows, row);
    for (let other = this.#open.first(key); other >= 0; other = this.#open.next(other))
      if (pitchOf(this.#rows, other) !== written) this.shared.add(row);
    this.#open.add(key, row);
  }

  /** @param meant the row of the note that is to end; −1 where there is none */
  release(event: number, key: number, meant: number): void {
    const ended = this.#open.take(key);
    if (ended < 0) return;
    this.#offs[ended] = event;
    if (meant >= 0 && ended !== meant) this.shared.add(meant);
    if (meant < 0) this.shared.add(ended);
  }

  /** The rows with these releases. */
  paired(events: Events): DecidedNotes {
    const rows = this.#rows;
    const off = this.#offs;
    const last = lastTick(events);
    const endTick = ticksUpTo(last, rows.length);
    for (let row = 0; row < rows.length; row++) {
      const release = off[row] ?? -1;
      const end = release < 0 ? last : tickOf(events, release);
      endTick[row] = release === offOf(rows, row) ? noteEnd(rows, row) : Math.max(noteTick(rows, row), end);
    }
    const { length, names, articulation, onset, on, tick, pitch } = rows;
    const noteOf = (row: number) => rows.noteOf(row);
    const isKept = (row: number) => rows.isKept(row);
    return { length, names, articulation, onset, on, off, tick, endTick, pitch, noteOf, isKept };
  }
}
