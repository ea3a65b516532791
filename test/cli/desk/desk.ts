import { cpSync } from 'node:fs';
import { request as httpRequest, type IncomingHttpHeaders } from 'node:http';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { run } from '../../../src/cli/program.js';
import type { DeskState, Preview, Written } from '../../../src/desk/index.js';
import { keeping, type Said } from '../../support/in-process.js';

/** The demo's files in a folder of their own. @returns the path of the cue */
export function demoIn(folder: string): string {
  cpSync('maps/demo', folder, { recursive: true });
  return join(folder, 'skerry-point.cue.yaml');
}

export interface Got {
  readonly status: number;
  readonly headers: IncomingHttpHeaders;
  readonly body: string;
}

/** A desk that runs in this process. */
export interface OpenDesk {
  /** `http://127.0.0.1:PORT/TOKEN/` */
  readonly address: string;
  readonly port: number;
  readonly token: string;
  readonly said: Said;
  /** The states that a page would have been told, from the first on. */
  readonly states: DeskState[];
  /** Waits for a state that is as wanted. */
  until(isWanted: (state: DeskState) => boolean): Promise<DeskState>;
  moved(revision: number, moved: Readonly<Record<string, string>>): Promise<Preview>;
  write(revision: number, moved: Readonly<Record<string, string>>): Promise<Written>;
  /** Ends it. @returns the exit status */
  end(): Promise<number>;
}

/** Asks something as whoever: with other headers, or of another path. */
export function ask(
  port: number,
  path: string,
  {
    method = 'GET',
    headers = {},
    body,
  }: {
    method?: string;
    headers?: Readonly<Record<string, string | readonly string[]>>;
    body?: string | Uint8Array;
  } = {},
): Promise<Got> {
  return new Promise((done, fail) => {
    const asked = httpRequest({
      host: '127.0.0.1',
      port,
      path,
      method,
      headers: headers as never,
      agent: false,
    });
    asked.on('error', fail);
    asked.on('response', (answer) => {
      let text = '';
      answer.on('data', (data) => {
        text += String(data);
      });
      answer.on('error', fail);
      answer.on('end', () => done({ status: answer.statusCode ?? 0, headers: answer.headers, body: text }));
    });
    asked.end(body);
  });
}

export async function openDesk(cue: string, more: readonly string[] = []): Promise<OpenDesk> {
  const ending = new AbortController();
  const { io, said } = keeping({ ends: ending.signal });
  const outcome = run(['desk', cue, ...more], io);
  let failed = false;
  outcome.catch(() => {
    failed = true;
  });
  for (let waited = 0; said.out === '' && !failed && waited < 10_000; waited += 10) await sleep(10);
  const address = said.out.trim();
  const { port: spelled, pathname } = new URL(address);
  const port = Number(spelled);
  const token = pathname.slice(1, -1);
  const states: DeskState[] = [];
  const listening = new AbortController();
  const events = await fetch(`${address}events`, { signal: listening.signal });
  const listen = async () => {
    const decoder = new TextDecoder();
    let text = '';
    for await (const block of events.body ?? []) {
      text += decoder.decode(block as Uint8Array, { stream: true });
      const blocks = text.split('\n\n');
      text = blocks.pop() ?? '';
      for (const one of blocks)
        if (one.startsWith('data: ')) {
          const state = JSON.parse(one.slice(6)) as DeskState;
          if (!state.isBusy) states.push(state);
        }
    }
  };
  const heard = listen().catch(() => {});
  const post = async <T>(what: string, revision: number, moved: Readonly<Record<string, string>>) => {
    const { body } = await ask(port, `/${token}/${what}`, {
      method: 'POST',
      headers: { origin: `http://127.0.0.1:${port}`, 'content-type': 'application/json' },
      body: JSON.stringify({ revision, moved: Object.entries(moved).map(([id, value]) => ({ id, value })) }),
    });
    return JSON.parse(body) as T;
  };
  return {
    address,
    port,
    token,
    said,
    states,
    async until(isWanted) {
      for (let waited = 0; waited < 40_000; waited += 20) {
        const found = states.findLast(isWanted);
        if (found) return found;
        await sleep(20);
      }
      throw new Error(`no such state came: ${JSON.stringify(states.at(-1))?.slice(0, 500)}`);
    },
    moved: (revision, moved) => post('moved', revision, moved),
    write: (revision, moved) => post('write', revision, moved),
    async end() {
      ending.abort();
      listening.abort();
      await heard;
      return outcome;
    },
  };
}
