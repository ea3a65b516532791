import type { Message } from '../../midi/index.js';
import type { Fragment, Tree } from '../../yaml/index.js';
import type { Source } from '../source/index.js';
import type { Writer } from './writers.js';

/** A switch message of some kind. */
export interface AnyMessage {
  readonly kind: string;
  /** Gives it an aspect of its own; a kind that has none of its own leaves it out. */
  readonly aspect?: string;
}

/** The octave that a library prints for MIDI note 60. */
export type MiddleC = 3 | 4 | 5;

export interface Written {
  /** What a message must have, for a list of kinds: `controller with value`. */
  readonly is: string;
  /** What it may have besides, in brackets. */
  readonly mayHave?: string;
  /** Its keys with their fragments; every message has the first, and no message of another kind has it. */
  readonly keys: Readonly<Record<string, Fragment>>;
  /** Keys that do not stand without others. */
  readonly needs: Readonly<Record<string, readonly string[]>>;
}

/** What a message keeps for itself: a key, a controller, or the channel to which its notes are sent (0–15). */
export interface Taken {
  readonly key?: number;
  readonly controller?: number;
  readonly channel?: number;
}

/** One kind of message that selects a recording: how it is written, what it sets and sends, and how it is said. */
export interface SwitchKind<M extends AnyMessage> {
  readonly kind: M['kind'];
  readonly written: Written;
  /** The message that a mapping means; undefined where it is none of this kind. */
  read(source: Source, tree: Tree, aspect: Pick<AnyMessage, 'aspect'>): M | undefined;
  taken(message: M): Taken;
  /** The aspect of a message that names none, which holds what was last put there. */
  aspect(message: M): string;
  /** That aspect in words: `the switch key`. */
  formatAspect(message: M): string;
  /** What it sets in the library, named aspects aside: `switch key 24`. */
  subject(message: M): string;
  /** Equal for messages that reach the library alike. */
  identity(message: M): string;
  /** Whether one message does all that another does. */
  covers(one: M, other: M): boolean;
  /** Whether one message sets something that another leaves as it was, though it is of the same aspect. */
  setsMore(one: M, other: M): boolean;
  /** Whether what it sets stays when the note is over. */
  isLasting(message: M, isMomentary: boolean): boolean;
  /** What it sends on a channel (0–15); keys are struck and released apart from this. */
  sends(message: M, channel: number): readonly Message[];
  /** What in the music changes its aspect. */
  writers(message: M, isMomentary: boolean): readonly Writer[];
  /** In a few words, for the sheet: `CC 20 = 64`. */
  formatShort(message: M, middleC: MiddleC): string;
  /** In full: `controller 20 at 64`. */
  format(message: M, middleC: MiddleC): string;
}
