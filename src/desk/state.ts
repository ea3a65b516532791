import type { Change, Changes } from './changes.js';
import type { Movable } from './movable.js';

/** Something that is wrong, as it is told. Safe to show. */
export interface Problem {
  readonly text: string;
  readonly hint?: string;
}

/** Values of one map, and who is played by it. */
export interface BoundGroup {
  readonly file: string;
  /** Parts, and layers of them. */
  readonly parts: readonly string[];
  readonly values: readonly Movable[];
}

/** All that the page of the desk is told, whenever something becomes otherwise. */
export interface DeskState {
  readonly title: string;
  /** Counts the states of the files that had no errors; 0 while there was none. */
  readonly revision: number;
  /** The sheet that belongs to it; the same number as long as the same is drawn. */
  readonly sheet: number;
  /** Whether files were saved that are being read, compiled and drawn now; the rest is as it was. */
  readonly isBusy: boolean;
  /** Whether the files have errors now: then all but the problems is of the last state that had none. */
  readonly isBroken: boolean;
  readonly problems: readonly Problem[];
  /** What is otherwise since the state before; absent where there was none. */
  readonly changes?: Changes;
  readonly bounds: readonly BoundGroup[];
  readonly levels: readonly Movable[];
}

/** What moved values come to. */
export interface Preview {
  readonly changes: Changes;
  /** What the files would have that is wrong; changes are empty then. */
  readonly problems: readonly Problem[];
  /** Values that cannot be moved, and why. */
  readonly refused: readonly { readonly id: string; readonly why: string }[];
}

/** What became of a wish to write. */
export type Written = { readonly files: readonly string[] } | { readonly refused: string };

export type { Change, Changes, Movable };
