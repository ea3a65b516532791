import type { Block } from './render.js';

/**
 * Keeps a sound between its rendering and its writing, until its peak is known. A long one belongs in a file: at 48 kHz
 * stereo a minute is 23 MB.
 */
export interface Spool {
  write(block: Block): void | Promise<void>;
  /** What was written, in order. Is asked for once. */
  read(): Iterable<Block> | AsyncIterable<Block>;
}

/** Keeps a sound in memory. */
export function memorySpool(): Spool {
  const blocks: Block[] = [];
  return {
    write({ left, right }) {
      blocks.push({ left: left.slice(), right: right.slice() });
    },
    *read() {
      yield* blocks;
    },
  };
}
