import { channelOf, type Events, firstData, isNoteOn, kindOf, Numbers, tickOf } from '../midi/index.js';
import { type Content, contentOf } from './content.js';
import type { Spot } from './violations.js';

/** How a switch is sent: a key is struck, or a momentary key is let go; a controller; a program. */
export type ActionKind = 'strike' | 'release' | 'controller' | 'program';

const sounding = 1;
const repair = 2;

/** The switches at work in a part, in columns, in file order. Notes are indices of those that were heard; −1: none. */
export class Actions {
  readonly #events: Events;
  readonly #at = new Numbers();
  readonly #previous = new Numbers();
  readonly #next = new Numbers();
  readonly #flags = new Numbers();

  constructor(events: Events) {
    this.#events = events;
  }

  /** @returns its index; which note comes next is told when it comes */
  add(event: number, previous: number, isSounding: boolean, isRepair: boolean): number {
    this.#previous.push(previous);
    this.#next.push(-1);
    this.#flags.push((isSounding ? sounding : 0) | (isRepair ? repair : 0));
    return this.#at.push(event);
  }

  tellNext(action: number, note: number): void {
    this.#next.set(action, note);
  }

  get length(): number {
    return this.#at.length;
  }

  kind(action: number): ActionKind {
    const event = this.#at.at(action);
    const kind = kindOf(this.#events, event);
    if (kind === 0xb0) return 'controller';
    if (kind === 0xc0) return 'program';
    return isNoteOn(this.#events, event) ? 'strike' : 'release';
  }

  /** 0–15. */
  channel(action: number): number {
    return channelOf(this.#events, this.#at.at(action));
  }

  tick(action: number): number {
    return tickOf(this.#events, this.#at.at(action));
  }

  /** The switch key; undefined for controllers and programs. */
  key(action: number): number | undefined {
    const event = this.#at.at(action);
    return kindOf(this.#events, event) < 0xa0 ? firstData(this.#events, event) : undefined;
  }

  /** Where it is, to tell of it. */
  spot(action: number): Spot {
    return { tick: this.tick(action), channel: this.channel(action), pitch: this.key(action) };
  }

  /** What it puts into an aspect. */
  content(action: number): Content {
    return contentOf(this.#events, this.#at.at(action));
  }

  /** The melody note of its channel just before it, in file order. */
  previous(action: number): number {
    return this.#previous.at(action);
  }

  /** The one just behind it. */
  next(action: number): number {
    return this.#next.at(action);
  }

  /** Whether notes sound that it could reach; for a key that is let go: notes that were struck with it and need it. */
  isSounding(action: number): boolean {
    return (this.#flags.at(action) & sounding) !== 0;
  }

  /** Whether it stands behind an event of the music that wrote to an aspect of the map since the previous note. */
  isRepair(action: number): boolean {
    return (this.#flags.at(action) & repair) !== 0;
  }
}

/** The switches that stand before each note, behind the note of its channel before it; and those behind all notes. */
export class SwitchesBetweenNotes {
  readonly behindAll: readonly number[];
  /** The notes before which switches stand, in the order of the first switch of each. */
  readonly notes: readonly number[];
  /** For each note the first of them; for each of them the next. */
  readonly #first: Int32Array;
  readonly #following: Int32Array;

  constructor(actions: Actions, notes: number) {
    this.#first = new Int32Array(notes).fill(-1);
    this.#following = new Int32Array(actions.length).fill(-1);
    const last = new Int32Array(notes).fill(-1);
    const behindAll: number[] = [];
    const inOrder: number[] = [];
    for (let action = 0; action < actions.length; action++) {
      if (actions.kind(action) === 'release') continue;
      const note = actions.next(action);
      if (note < 0) behindAll.push(action);
      else {
        const before = last[note] ?? -1;
        if (before < 0) {
          this.#first[note] = action;
          inOrder.push(note);
        } else this.#following[before] = action;
        last[note] = action;
      }
    }
    this.behindAll = behindAll;
    this.notes = inOrder;
  }

  /** The first switch before a note; −1 where there is none. */
  first(note: number): number {
    return this.#first[note] ?? -1;
  }

  /** The switch before the same note that comes next; −1 behind the last. */
  following(action: number): number {
    return this.#following[action] ?? -1;
  }

  /** Those before a note, in file order. */
  before(note: number): readonly number[] {
    const all: number[] = [];
    for (let action = this.first(note); action >= 0; action = this.following(action)) all.push(action);
    return all;
  }
}
