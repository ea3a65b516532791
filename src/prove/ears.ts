import type { HeardNote } from './hearing.js';

/** A switch at work: a key that is struck (or a momentary key that is let go), a controller, a program. */
export interface Action {
  readonly kind: 'strike' | 'release' | 'controller' | 'program';
  /** 0–15. */
  readonly channel: number;
  readonly tick: number;
  /** The switch key; undefined for controllers and programs. */
  readonly key: number | undefined;
  /** The melody notes of its channel just before and just after it, in file order. */
  readonly previous: HeardNote | undefined;
  readonly next: HeardNote | undefined;
  /** Whether notes sound that it could reach; for a key that is let go: notes that were struck with it and need it. */
  readonly isSounding: boolean;
  /** Whether it stands behind an event of the music that wrote to a slot of the map since the previous note. */
  readonly isRepair: boolean;
}

/** Follows what sounds on each channel, and which notes each switch stands between. */
export interface Ears {
  /** In file order. */
  readonly actions: readonly Action[];
  act(kind: Action['kind'], channel: number, tick: number, key?: number): void;
  /** The music itself writes to a slot of the map. */
  overwrite(channel: number): void;
  begin(note: HeardNote, keys: Iterable<number>): void;
  end(note: HeardNote, keys: Iterable<number>): void;
}

type Growing = { -readonly [K in keyof Action]: Action[K] };

interface Ear {
  last: HeardNote | undefined;
  /** Actions that wait for the next note. */
  waiting: Growing[];
  /** How many notes sound. */
  open: number;
  /** The notes that were struck since a key was, need it, and still sound. */
  readonly needing: Map<number, Set<HeardNote>>;
  isOverwritten: boolean;
}

export function earsFor(channels: Iterable<number>): Ears {
  const ears = new Map(
    [...channels].map((channel): [number, Ear] => [
      channel,
      { last: undefined, waiting: [], open: 0, needing: new Map(), isOverwritten: false },
    ]),
  );
  const actions: Growing[] = [];
  return {
    actions,
    act(kind, channel, tick, key) {
      const ear = ears.get(channel);
      if (!ear) return;
      const isSounding = kind === 'release' ? (ear.needing.get(key ?? -1)?.size ?? 0) > 0 : ear.open > 0;
      const { last: previous, isOverwritten: isRepair } = ear;
      const action: Growing = { kind, channel, tick, key, previous, next: undefined, isSounding, isRepair };
      actions.push(action);
      ear.waiting.push(action);
      if (kind === 'strike' && key !== undefined) ear.needing.set(key, new Set());
    },
    overwrite(channel) {
      const ear = ears.get(channel);
      if (ear) ear.isOverwritten = true;
    },
    begin(note, keys) {
      const ear = ears.get(note.channel);
      if (!ear) return;
      for (const action of ear.waiting) action.next = note;
      ear.waiting = [];
      ear.last = note;
      ear.isOverwritten = false;
      ear.open += 1;
      for (const key of keys) ear.needing.get(key)?.add(note);
    },
    end(note, keys) {
      const ear = ears.get(note.channel);
      if (!ear) return;
      ear.open -= 1;
      for (const key of keys) ear.needing.get(key)?.delete(note);
    },
  };
}
