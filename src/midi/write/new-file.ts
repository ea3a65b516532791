import type { Events } from '../events/index.js';
import { trackChunk } from './track.js';

/** The MThd chunk, its id and length included. */
const head = 14;

/**
 * A Standard MIDI File of new tracks: of format 0 for one, of format 1 for several. Undefined where a time between two
 * events is one that no file can say.
 */
export function newFile(ppq: number, tracks: readonly Events[]): Uint8Array | undefined {
  const chunks: Uint8Array[] = [];
  for (const events of tracks) {
    const chunk = trackChunk({ events });
    if (!('bytes' in chunk)) return undefined;
    chunks.push(chunk.bytes);
  }
  const bytes = new Uint8Array(head + chunks.reduce((sum, { length }) => sum + length, 0));
  bytes.set([0x4d, 0x54, 0x68, 0x64, 0, 0, 0, 6]);
  const view = new DataView(bytes.buffer);
  view.setUint16(8, tracks.length === 1 ? 0 : 1);
  view.setUint16(10, tracks.length);
  view.setUint16(12, ppq);
  let at = head;
  for (const chunk of chunks) {
    bytes.set(chunk, at);
    at += chunk.length;
  }
  return bytes;
}
