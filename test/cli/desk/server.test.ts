import { readFileSync } from 'node:fs';
import { connect, type Socket } from 'node:net';
import { setTimeout as sleep } from 'node:timers/promises';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Served, serve } from '../../../src/cli/desk/server.js';
import { runHere } from '../../support/in-process.js';
import { ask } from './desk.js';

let served: Served;
let port: number;
let path: string;
const told: unknown[] = [];

beforeAll(async () => {
  served = await serve(0, {
    page: { html: '<!doctype html>', policy: "default-src 'none'; frame-ancestors 'none'" },
    sheet: (number) => (number === 1 ? '<!doctype html><p>sheet' : undefined),
    state: () => '{"revision":1}',
    moved: async (one) => {
      told.push(one);
      return '{}';
    },
    write: async () => {
      throw new Error('/etc/secret');
    },
  });
  const address = new URL(served.address);
  port = Number(address.port);
  path = address.pathname;
});
afterAll(() => served.close());

const host = () => `127.0.0.1:${port}`;
const post = (body: string | Uint8Array, what = 'moved', headers: Readonly<Record<string, string>> = {}) =>
  ask(port, `${path}${what}`, {
    method: 'POST',
    headers: { host: host(), origin: `http://${host()}`, 'content-type': 'application/json', ...headers },
    body,
  });

/** A connection that only connects, or says something by hand. */
function caller(said = ''): Promise<Socket> {
  return new Promise((done, fail) => {
    const socket = connect({ host: '127.0.0.1', port }, () => {
      socket.write(said);
      done(socket);
    });
    socket.on('error', fail);
  });
}

function answerOf(socket: Socket): Promise<string> {
  return new Promise((done) => {
    let text = '';
    socket.on('data', (data) => {
      text += String(data);
    });
    socket.on('close', () => done(text));
  });
}

describe('the server of the desk', () => {
  it('listens on the loopback address, with a token that nobody guesses', () => {
    expect(served.address).toMatch(/^http:\/\/127\.0\.0\.1:\d+\/[\w-]{32}\/$/u);
  });

  it('is not reached by other addresses of the machine', () => {
    // As the kernel has it: the listening sockets, local address first, in hexadecimal (proc(5)).
    const spelled = port.toString(16).toUpperCase().padStart(4, '0');
    const listening = readFileSync('/proc/net/tcp', 'utf8')
      .split('\n')
      .map((line) => line.trim().split(/\s+/u))
      .filter(([, local = '', , state]) => state === '0A' && local.endsWith(`:${spelled}`));
    expect(listening.map(([, local]) => local)).toEqual([`0100007F:${spelled}`]);
  });

  it('forbids that answers are kept, guessed at, framed or told on', async () => {
    for (const [asked, frames] of [
      [path, "'none'"],
      [`${path}sheet/1`, "'self'"],
      ['/', "'none'"],
    ]) {
      const { headers } = await ask(port, asked ?? '');
      expect(headers).toMatchObject({
        'cache-control': 'no-store',
        'x-content-type-options': 'nosniff',
        'referrer-policy': 'no-referrer',
        'cross-origin-resource-policy': 'same-origin',
      });
      expect(headers['content-security-policy']).toContain(`frame-ancestors ${frames}`);
      expect(headers).not.toHaveProperty('access-control-allow-origin');
    }
  });

  it('gives nothing to those with another token, name or origin', async () => {
    const wrong = path.replace(/.\/$/u, (end) => (end === 'A/' ? 'B/' : 'A/'));
    expect((await ask(port, wrong)).status).toBe(404);
    expect((await ask(port, '/')).status).toBe(404);
    expect((await ask(port, path, { headers: { host: 'example.org' } })).status).toBe(403);
    expect((await ask(port, path, { headers: { host: `localhost:${port}` } })).status).toBe(200);
    expect((await post('{}', 'moved', { origin: 'http://example.org' })).status).toBe(403);
    expect((await post('{}', 'moved', { 'content-type': 'text/plain' })).status).toBe(415);
    expect((await ask(port, `${path}sheet/2`)).status).toBe(404);
  });

  it('gives no files, however they are asked for', async () => {
    for (const trick of [
      '../../etc/passwd',
      '..%2f..%2fetc%2fpasswd',
      '....//etc/passwd',
      '%00',
      'sheet/../../../etc/passwd',
      'package.json',
    ])
      expect((await ask(port, `${path}${trick}`)).status, trick).toBe(404);
    expect((await ask(port, `/../../../../etc/passwd`)).status).toBe(404);
    expect((await ask(port, `http://${host()}${path}`)).status).toBe(404);
  });

  it('reads what it is told, in its own shape only', async () => {
    told.length = 0;
    expect((await post('{"revision":1,"moved":[{"id":"a","value":"1"}]}')).status).toBe(200);
    expect(told).toEqual([{ revision: 1, moved: [{ id: 'a', value: '1' }] }]);
    for (const wrong of [
      '',
      '{',
      '[]',
      'null',
      '{"revision":"1","moved":[]}',
      '{"revision":1,"moved":{}}',
      '{"revision":1,"moved":[1]}',
      '{"revision":1,"moved":[{"id":1,"value":"1"}]}',
      `${'['.repeat(30_000)}${']'.repeat(30_000)}`,
    ])
      expect((await post(wrong)).status, wrong.slice(0, 40)).toBe(400);
    expect((await post(new Uint8Array([0x22, 0xff, 0x22]))).status).toBe(400);
    expect(told).toHaveLength(1);
  });

  it('does not read bodies without end', async () => {
    expect((await post('x'.repeat(65_537))).status).toBe(413);
    // Of a length that is not told, it stops as soon as it is too much.
    const socket = await caller(
      `POST ${path}moved HTTP/1.1\r\nHost: ${host()}\r\nOrigin: http://${host()}\r\nContent-Type: application/json\r\nTransfer-Encoding: chunked\r\n\r\n`,
    );
    const answer = answerOf(socket);
    socket.on('error', () => {});
    for (let sent = 0; sent < 200 && !socket.destroyed; sent++) {
      socket.write(`1000\r\n${' '.repeat(4096)}\r\n`);
      await sleep(1);
    }
    expect(await answer).toMatch(/^HTTP\/1\.1 413 /u);
  });

  it('says nothing of what goes wrong within', async () => {
    const { status, body } = await post('{"revision":1,"moved":[]}', 'write');
    expect({ status, body }).toEqual({ status: 500, body: 'the desk could not do this\n' });
  });

  it('closes what is no request, heads that are too long, and upgrades', async () => {
    const answers = [
      'no request\r\n\r\n',
      `GET ${path} HTTP/1.1\r\nHost: ${host()}\r\nX: ${'x'.repeat(20_000)}\r\n\r\n`,
      `GET ${path} HTTP/1.1\r\nHost: ${host()}\r\nConnection: Upgrade\r\nUpgrade: websocket\r\n\r\n`,
      `CONNECT example.org:80 HTTP/1.1\r\nHost: ${host()}\r\n\r\n`,
    ].map(async (said) => answerOf(await caller(said)));
    for (const answer of await Promise.all(answers)) expect(answer).not.toContain('200');
  });

  it('closes a head that does not come to its end', async () => {
    const socket = await caller('GET / HTTP/1.1\r\nHost: ');
    const began = performance.now();
    await answerOf(socket);
    expect(performance.now() - began).toBeLessThan(8_000);
  });

  it('is there for its page while 500 others hold connections', async () => {
    const reading = new AbortController();
    const events = await fetch(`${served.address}events`, { signal: reading.signal });
    const reader = events.body?.getReader();
    let heard = '';
    const hear = async () => {
      for (;;) {
        const block = await reader?.read();
        if (!block || block.done) return;
        heard += new TextDecoder().decode(block.value);
      }
    };
    const ended = hear().catch(() => {});
    const flood = await Promise.all(Array.from({ length: 500 }, () => caller().catch(() => undefined)));
    const began = performance.now();
    expect((await ask(port, path)).status).toBe(200);
    // Before the heads of the others have taken too long, which is 3 s.
    expect(performance.now() - began).toBeLessThan(2_500);
    // The page that was there is told as before.
    const before = heard.length;
    served.tell();
    for (let waited = 0; heard.length === before && waited < 8_000; waited += 10) await sleep(10);
    expect(heard.length).toBeGreaterThan(before);
    const held = () => flood.filter((one) => one && !one.destroyed && one.readyState === 'open').length;
    await expect.poll(held, { timeout: 1_500 }).toBeLessThan(40);
    for (const one of flood) one?.destroy();
    reading.abort();
    await ended;
  });

  it('answers 500 requests at once, and ends with none of them left', async () => {
    const answers = await Promise.all(
      Array.from({ length: 500 }, () =>
        ask(port, '/').then(
          ({ status }) => status,
          () => 0,
        ),
      ),
    );
    expect(answers.filter((status) => status !== 404 && status !== 0)).toEqual([]);
    expect((await ask(port, path)).status).toBe(200);
  });

  it('is open in so many windows at most', async () => {
    const ending = new AbortController();
    const all = await Promise.all(
      Array.from({ length: 20 }, () => fetch(`${served.address}events`, { signal: ending.signal })),
    );
    expect(all.filter(({ status }) => status === 503)).toHaveLength(4);
    ending.abort();
  });
});

describe('keyslip desk', () => {
  const cue = 'maps/demo/skerry-point.cue.yaml';

  it.each([
    ['a port that is none', [cue, '--port', '70000'], '"70000" is no port'],
    ['standard input', ['-'], 'not standard input'],
    ['a recording', ['maps/demo/skerry-point.mid'], 'the desk shows a cue'],
  ])('refuses %s', async (_, words, said) => {
    const { status, err } = await runHere(['desk', ...words]);
    expect(status).toBe(2);
    expect(err).toContain(said);
  });

  it('says that a port is taken', async () => {
    const { status, err } = await runHere(['desk', cue, '--port', `${port}`]);
    expect(status).toBe(2);
    expect(err).toContain(`the port ${port} is taken`);
  });
});
