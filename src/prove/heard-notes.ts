import { channelOf, type Events, firstData, Numbers, tickOf } from '../midi/index.js';
import type { Sound } from './library.js';
import type { Stage } from './part.js';
import type { Sampler } from './sampler.js';
import { type Judgement, right } from './sounding.js';
import { noteSpot, type Spot } from './violations.js';

/** A melody note that arrives. */
interface Arriving {
  /** The index of its note-on. */
  readonly on: number;
  /** The index of its release; of the last event of the track where it is never released. */
  readonly end: number;
  readonly onset: number;
  /** The articulation that is meant, as an index of those of the part; −1 where nothing is known to be. */
  readonly name: number;
}

/** The melody notes of a part as the sampler hears them, in columns, in file order. */
export class HeardNotes {
  readonly #events: Events;
  readonly #stage: Pick<Stage, 'meant' | 'sounds'>;
  readonly #ons: Numbers;
  readonly #ends: Numbers;
  readonly #onsets: Numbers;
  readonly #names: Numbers;
  /** What sounds is not what is meant: the judgement. */
  readonly #wrong = new Map<number, Judgement>();
  /** For each note room for all keys that a sound can need: the events that struck them. */
  readonly #strikes: Numbers;
  readonly #room: number;

  constructor(stage: Pick<Stage, 'events' | 'meant' | 'sounds'>) {
    this.#events = stage.events;
    this.#stage = stage;
    this.#room = Math.max(0, ...stage.sounds.map((sound) => sound?.keyedAspects.length ?? 0));
    const { length } = stage.meant;
    this.#ons = new Numbers(length);
    this.#ends = new Numbers(length);
    this.#onsets = new Numbers(length);
    this.#names = new Numbers(length);
    this.#strikes = new Numbers(length * this.#room);
  }

  /**
   * @param sampler as it stands when the note arrives
   * @returns its index
   */
  add({ on, end, onset, name }: Arriving, judgement: Judgement, sampler: Sampler): number {
    const note = this.#ons.push(on);
    this.#ends.push(end);
    this.#onsets.push(onset);
    this.#names.push(name);
    if (judgement !== right) this.#wrong.set(note, judgement);
    const aspects = this.keyedAspects(note);
    for (let at = 0; at < this.#room; at++) {
      const aspect = aspects[at];
      this.#strikes.push(aspect === undefined ? -1 : sampler.since(channelOf(this.#events, on), aspect));
    }
    return note;
  }

  get length(): number {
    return this.#ons.length;
  }

  /** The index of its note-on in the track. */
  on(note: number): number {
    return this.#ons.at(note);
  }

  /** The index of its release; of the last event of the track where it is never released. */
  end(note: number): number {
    return this.#ends.at(note);
  }

  tick(note: number): number {
    return tickOf(this.#events, this.on(note));
  }

  endTick(note: number): number {
    return tickOf(this.#events, this.end(note));
  }

  /** 0–15. */
  channel(note: number): number {
    return channelOf(this.#events, this.on(note));
  }

  pitch(note: number): number {
    return firstData(this.#events, this.on(note));
  }

  /** Where it is, to tell of it. */
  spot(note: number): Spot {
    return noteSpot(this.#events, this.on(note));
  }

  /** Which of the part's onsets it belongs to, from 0. */
  onset(note: number): number {
    return this.#onsets.at(note);
  }

  isMeant(note: number): boolean {
    return this.#names.at(note) >= 0;
  }

  /** The name of the articulation that is meant; '' where nothing is known to be. */
  meant(note: number): string {
    return this.#stage.meant.articulations[this.#names.at(note)] ?? '';
  }

  /** Whether two notes are meant to sound alike. */
  areMeantAlike(note: number, other: number): boolean {
    return this.#names.at(note) === this.#names.at(other);
  }

  /** What is meant as the library knows it; undefined where nothing is known to be, or the library does not have it. */
  sound(note: number): Sound | undefined {
    return this.#stage.sounds[this.#names.at(note)];
  }

  /** What a sampler makes of it. */
  judgement(note: number): Judgement {
    return this.#wrong.get(note) ?? right;
  }

  /** Those that do not sound as meant, in order. */
  get wrong(): readonly number[] {
    return [...this.#wrong.keys()];
  }

  /** Whether it sounds as meant. */
  isRight(note: number): boolean {
    return !this.#wrong.has(note);
  }

  /** The aspects of the key switches that make it sound as meant; none where what is set does not select that. */
  keyedAspects(note: number): readonly number[] {
    return this.judgement(note).isSelected ? (this.sound(note)?.keyedAspects ?? none) : none;
  }

  /** The tick at which the key was struck that stands in one of these aspects. */
  strikeTick(note: number, at: number): number {
    return tickOf(this.#events, this.#strikes.at(note * this.#room + at));
  }
}

const none: readonly number[] = [];
