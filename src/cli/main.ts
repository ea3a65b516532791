import { writeSync } from 'node:fs';
import { styleText } from 'node:util';
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

/** Coloured or not by the rules of Node: a terminal and not a dumb one, NO_COLOR, FORCE_COLOR. */
const color = styleText('red', 'x', { stream: process.stderr }) !== 'x';
const io: Io = {
  stdin,
  out: (data) => write(1, data),
  err: (text) => write(2, text),
  color,
  isOutTerminal: process.stdout.isTTY === true,
  ...(process.stderr.isTTY ? { progress: (line: string) => write(2, `\r\u001b[K${line}`) } : {}),
};

try {
  process.exitCode = await run(process.argv.slice(2), io);
} catch {
  io.err('keyslip: something went wrong that should not have. Nothing was written over.\n');
  process.exitCode = 1;
}
