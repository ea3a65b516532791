import type { HeardNote } from './heard-note.js';

/** A switch at work: a key that is struck (or a momentary key that is let go), a controller, a program. */
export interface Action {
  readonly kind: 'strike' | 'release' | 'controller' | 'program';
  /** 0–15. */
  readonly channel: number;
  readonly tick: number;
  /** The switch key; undefined for controllers and programs. */
  readonly key: number | undefined;
  /** What it sends, as aspects hold it: `key 24`. */
  readonly what: string;
  /** The melody notes of its channel just before and just after it, in file order. */
  readonly previous: HeardNote | undefined;
  readonly next: HeardNote | undefined;
  /** Whether notes sound that it could reach; for a key that is let go: notes that were struck with it and need it. */
  readonly isSounding: boolean;
  /** Whether it stands behind an event of the music that wrote to an aspect of the map since the previous note. */
  readonly isRepair: boolean;
}

/** Follows what sounds on each channel, and which notes each switch stands between. */
export interface Ears {
  /** In file order. */
  readonly actions: readonly Action[];
  act(action: Pick<Action, 'kind' | 'channel' | 'tick' | 'key' | 'what'>): void;
  /** The music itself writes to an aspect of the map. */
  overwrite(channels: Iterable<number>): void;
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
    act(sent) {
      const { kind, channel, key } = sent;
      const ear = ears.get(channel);
      if (!ear) return;
      const isSounding = kind === 'release' ? (ear.needing.get(key ?? -1)?.size ?? 0) > 0 : ear.open > 0;
      const { last: previous, isOverwritten: isRepair } = ear;
      const action: Growing = { ...sent, previous, next: undefined, isSounding, isRepair };
      actions.push(action);
      ear.waiting.push(action);
      if (kind === 'strike' && key !== undefined) ear.needing.get(key)?.clear();
    },
    overwrite(channels) {
      for (const channel of channels) {
        const ear = ears.get(channel);
        if (ear) ear.isOverwritten = true;
      }
    },
    begin(note, keys) {
      const ear = ears.get(note.channel);
      if (!ear) return;
      for (const action of ear.waiting) action.next = note;
      ear.waiting = [];
      ear.last = note;
      ear.isOverwritten = false;
      ear.open += 1;
      for (const key of keys) {
        const needing = ear.needing.get(key);
        if (needing) needing.add(note);
        else ear.needing.set(key, new Set([note]));
      }
    },
    end(note, keys) {
      const ear = ears.get(note.channel);
      if (!ear) return;
      ear.open -= 1;
      for (const key of keys) ear.needing.get(key)?.delete(note);
    },
  };
}

/** The switches that stand before each note, behind the note of its channel before it; and those behind all notes. */
export function switchesBetweenNotes(actions: readonly Action[]): {
  readonly before: ReadonlyMap<HeardNote, readonly Action[]>;
  readonly behindAll: readonly Action[];
} {
  const before = new Map<HeardNote, Action[]>();
  const behindAll: Action[] = [];
  for (const action of actions) {
    if (action.kind === 'release') continue;
    const others = action.next && before.get(action.next);
    if (others) others.push(action);
    else if (action.next) before.set(action.next, [action]);
    else behindAll.push(action);
  }
  return { before, behindAll };
}
