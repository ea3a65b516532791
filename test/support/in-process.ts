import type { Io } from '../../src/cli/io.js';
import { run } from '../../src/cli/program.js';

/** What a command that runs in this process has said so far. */
export interface Said {
  out: string;
  err: string;
  bytes: Uint8Array[];
}

/** Streams that keep what is said, with what a test needs to be otherwise. */
export function keeping(otherwise: Partial<Io> = {}): { readonly io: Io; readonly said: Said } {
  const said: Said = { out: '', err: '', bytes: [] };
  const io: Io = {
    stdin: async () => new Uint8Array(),
    out: (data) => {
      if (typeof data === 'string') said.out += data;
      else said.bytes.push(data);
    },
    err: (text) => {
      said.err += text;
    },
    color: false,
    ...otherwise,
  };
  return { io, said };
}

/** Runs a command line in this process. */
export async function runHere(
  words: readonly string[],
  otherwise: Partial<Io> = {},
): Promise<Said & { readonly status: number }> {
  const { io, said } = keeping(otherwise);
  const status = await run(words, io);
  return { status, ...said };
}
