import { Numbers } from '../midi/index.js';

/** What a note is meant to sound with. */
export interface MeantNote {
  readonly tick: number;
  /** The MIDI note. */
  readonly pitch: number;
  /** The articulation's name in the map. */
  readonly articulation: string;
  /**
   * Which onset of its part it is of, from 0: notes of one were struck together as they were played. Found in the file
   * where it is not known.
   */
  readonly onset?: number | undefined;
}

/** What the melody notes of a part are meant to sound with, in columns, in file order of the note-ons. */
export class MeantNotes {
  readonly #ticks: Numbers;
  readonly #pitches: Numbers;
  readonly #names: Numbers;
  readonly #onsets: Numbers;
  readonly #articulations: string[] = [];
  readonly #known = new Map<string, number>();

  /** @param expected about how many there will be */
  constructor(expected = 0) {
    this.#ticks = new Numbers(expected);
    this.#pitches = new Numbers(expected);
    this.#names = new Numbers(expected);
    this.#onsets = new Numbers(expected);
  }

  static of(notes: readonly MeantNote[]): MeantNotes {
    const meant = new MeantNotes(notes.length);
    for (const note of notes) meant.add(note);
    return meant;
  }

  add({ tick, pitch, articulation, onset = -1 }: MeantNote): void {
    this.#ticks.push(tick);
    this.#pitches.push(pitch);
    this.#onsets.push(onset);
    this.#names.push(this.#nameOf(articulation));
  }

  get length(): number {
    return this.#ticks.length;
  }

  /** The names of the articulations that are meant anywhere. */
  get articulations(): readonly string[] {
    return this.#articulations;
  }

  tick(note: number): number {
    return this.#ticks.at(note);
  }

  pitch(note: number): number {
    return this.#pitches.at(note);
  }

  /** −1 where it is not known. */
  onset(note: number): number {
    return this.#onsets.at(note);
  }

  /** Its articulation: an index of `articulations`. */
  articulation(note: number): number {
    return this.#names.at(note);
  }

  #nameOf(articulation: string): number {
    const known = this.#known.get(articulation);
    if (known !== undefined) return known;
    const name = this.#articulations.push(articulation) - 1;
    this.#known.set(articulation, name);
    return name;
  }
}
