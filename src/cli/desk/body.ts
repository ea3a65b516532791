import type { IncomingMessage } from 'node:http';
import type { Moved } from '../../desk/index.js';

/** The most that may be told at once. Unit: bytes. */
const largest = 64 * 1024;
/** The most values that may be moved at once. */
const mostMoved = 1000;

/** What the page tells. */
export interface Told {
  /** The state of the files that it has seen. */
  readonly revision: number;
  readonly moved: readonly Moved[];
}

/** The body of a request; undefined where it is too large. */
export async function bodyOf(request: IncomingMessage): Promise<Uint8Array | undefined> {
  if (Number(request.headers['content-length'] ?? 0) > largest) return undefined;
  const blocks: Buffer[] = [];
  let total = 0;
  for await (const block of request) {
    total += (block as Buffer).length;
    if (total > largest) return undefined;
    blocks.push(block as Buffer);
  }
  return Buffer.concat(blocks);
}

/** Reads what the page tells; undefined where it is of another shape. */
export function toldIn(body: Uint8Array): Told | undefined {
  try {
    const data: unknown = JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(body));
    if (!isRecord(data)) return undefined;
    const { revision, moved } = data;
    if (!Number.isSafeInteger(revision) || !Array.isArray(moved) || moved.length > mostMoved)
      return undefined;
    return moved.every(isMoved) ? { revision: Number(revision), moved } : undefined;
  } catch {
    return undefined;
  }
}

function isMoved(data: unknown): data is Moved {
  return isRecord(data) && typeof data.id === 'string' && typeof data.value === 'string';
}

function isRecord(data: unknown): data is Readonly<Record<string, unknown>> {
  return typeof data === 'object' && data !== null && !Array.isArray(data);
}
