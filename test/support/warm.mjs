// Runs command lines one after another in one process, so that tests which ask for many of them do not wait for the
// program to start each time. A request is a line of JSON on standard input, its answer a line on standard output.
import { readSync, writeSync } from 'node:fs';

const { run } = await import(process.argv[2]);
const surroundings = process.cwd();

/** The next line of standard input; undefined at its end. Waits for it without giving way to anything else. */
let rest = '';
function nextLine() {
  const block = Buffer.alloc(1 << 16);
  for (;;) {
    const end = rest.indexOf('\n');
    if (end >= 0) {
      const line = rest.slice(0, end);
      rest = rest.slice(end + 1);
      return line;
    }
    const length = readSync(0, block);
    if (length === 0) return undefined;
    // A line has base64 and JSON's own escapes, no character of several bytes.
    rest += block.toString('latin1', 0, length);
  }
}

function answer(bytes) {
  for (let at = 0; at < bytes.length; )
    try {
      at += writeSync(1, bytes, at);
    } catch (error) {
      // Who looks at process.stdout makes its pipe one that does not wait.
      if (error.code !== 'EAGAIN') throw error;
      Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 1);
    }
}

answer(Buffer.from('\n'));
for (let line = nextLine(); line !== undefined; line = nextLine()) {
  const { words, cwd } = JSON.parse(Buffer.from(line, 'base64').toString());
  const out = [];
  let err = '';
  const io = {
    stdin: async () => new Uint8Array(),
    out: (data) => out.push(Buffer.from(data)),
    err: (text) => {
      err += text;
    },
    color: false,
  };
  process.chdir(cwd);
  let status;
  let failure;
  try {
    status = await run(words, io);
  } catch (error) {
    failure = String(error?.stack ?? error);
  }
  process.chdir(surroundings);
  const said = { status, failure, out: Buffer.concat(out).toString('base64'), err };
  answer(Buffer.from(`${Buffer.from(JSON.stringify(said)).toString('base64')}\n`));
}
