import { openSync, readSync } from 'node:fs';
import { isMidi } from '../../midi/index.js';
import { closeQuietly } from './streams.js';

/** Whether a file that is there is a MIDI file (MThd) or empty; true where none is there. */
export function isMusicOrNothing(path: string): boolean {
  let descriptor: number;
  try {
    descriptor = openSync(path, 'r');
  } catch {
    // Writing will tell what is wrong with it.
    return true;
  }
  try {
    const start = Buffer.alloc(4);
    const length = readSync(descriptor, start, 0, 4, 0);
    return length === 0 || isMidi(start);
  } catch {
    return true;
  } finally {
    closeQuietly(descriptor);
  }
}
