import { fstatSync } from 'node:fs';
import { styleText } from 'node:util';
import { writeStream } from './files/streams.js';
import { exit, type Io } from './io.js';
import { run } from './program.js';
import { optimisingLate } from './tiering.js';
import { unexpectedText } from './unexpected.js';

const { KEYSLIP_DEBUG, TERM } = process.env;
const haveRead = optimisingLate();

async function stdin(limit: number): Promise<Uint8Array> {
  // A folder is an empty stream to Node.
  if (fstatSync(0).isDirectory()) throw Object.assign(new Error('a folder'), { code: 'EISDIR' });
  const blocks: Buffer[] = [];
  let total = 0;
  for await (const block of process.stdin) {
    blocks.push(block as Buffer);
    total += (block as Buffer).length;
    haveRead((block as Buffer).length);
    if (total > limit) break;
  }
  return new Uint8Array(Buffer.concat(blocks));
}

const out = writeStream(1);
const err = writeStream(2);
/** Coloured or not by the rules of Node: a terminal and not a dumb one, NO_COLOR, FORCE_COLOR. */
const color = styleText('red', 'x', { stream: process.stderr }) !== 'x';
const io: Io = {
  stdin,
  read: (_, bytes) => haveRead(bytes.length),
  out: (data) => out.write(data),
  err: (text) => err.tell(text),
  color,
  isOutTerminal: process.stdout.isTTY === true,
  // A dumb terminal cannot clear a line.
  ...(process.stderr.isTTY && TERM !== 'dumb'
    ? { progress: (line: string) => err.tell(`\r\u001b[K${line}`) }
    : {}),
};

function fail(error: unknown): void {
  err.tell(unexpectedText(error, KEYSLIP_DEBUG !== undefined && KEYSLIP_DEBUG !== ''));
  process.exitCode = exit.errors;
}

process.on('uncaughtException', (error) => {
  fail(error);
  process.exit();
});
try {
  const status = await run(process.argv.slice(2), io);
  // What could not be told is not well.
  process.exitCode = err.isWhole() ? status : Math.max(status, exit.errors);
} catch (error) {
  fail(error);
}
