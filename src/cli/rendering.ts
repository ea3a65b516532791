import {
  type Heard,
  type HearOptions,
  type HearPart,
  hear,
  type Result,
  type WavSink,
} from '../sound/index.js';
import type { LoadedBank } from './bank.js';
import type { CommonOptions } from './context.js';
import type { Io } from './io.js';
import { shareLine } from './progress.js';
import { type FileSpool, fileSpool } from './spool.js';

/** Where a sound goes, and how its samples are written. */
export interface Into {
  readonly format: '16' | '24' | 'float';
  readonly sink: WavSink;
}

/**
 * Renders parts with a bank, with its progress on a terminal.
 *
 * @throws CannotWrite where there is no room for what waits to be written
 */
export async function rendering(
  parts: readonly HearPart[],
  bank: LoadedBank,
  hearing: HearOptions,
  { format, sink }: Into,
  options: CommonOptions,
  io: Io,
): Promise<Result<Heard>> {
  const progress = shareLine(io, options);
  let spool: FileSpool | undefined;
  try {
    spool = fileSpool();
    const onProgress = ({ frames, of }: { readonly frames: number; readonly of: number }) =>
      progress.step(frames / Math.max(1, of), 'rendering');
    return await hear(parts, bank.bytes, hearing, { format, sink, spool, onProgress });
  } finally {
    progress.end();
    spool?.close();
  }
}
