import { writeSync } from 'node:fs';
import type { Io } from './io.js';
import { run } from './program.js';

/** Writes everything, also to a pipe that takes it bit by bit; a reader who has gone away ends the program quietly. */
function write(descriptor: number, data: string | Uint8Array): void {
  const bytes = typeof data === 'string' ? Buffer.from(data) : data;
  for (let at = 0; at < bytes.length; ) {
    try {
      at += writeSync(descriptor, bytes, at);
    } catch (error) {
      const code = error instanceof Error && 'code' in error ? error.code : undefined;
      if (code === 'EAGAIN') continue;
      process.exit(code === 'EPIPE' ? 0 : 1);
    }
  }
}

async function stdin(): Promise<Uint8Array> {
  const blocks: Buffer[] = [];
  for await (const block of process.stdin) blocks.push(block as Buffer);
  return new Uint8Array(Buffer.concat(blocks));
}

const { NO_COLOR } = process.env;
const io: Io = {
  stdin,
  out: (data) => write(1, data),
  err: (text) => write(2, text),
  color: process.stderr.isTTY === true && (NO_COLOR === undefined || NO_COLOR === ''),
  ...(process.stderr.isTTY ? { progress: (line: string) => write(2, `\r\u001b[K${line}`) } : {}),
};

try {
  process.exitCode = await run(process.argv.slice(2), io);
} catch {
  io.err('keyslip: something went wrong that should not have. Nothing was written over.\n');
  process.exitCode = 1;
}
