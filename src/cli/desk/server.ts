import { randomBytes } from 'node:crypto';
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { quoted } from '../../diagnostics/index.js';
import { codeOf, fileProblem } from '../files/problems.js';
import { UsageError } from '../io.js';
import { bodyOf, type Told, toldIn } from './body.js';
import { callersOf } from './callers.js';
import { type Door, judge } from './guard.js';
import { type Listeners, listeners } from './listeners.js';

/** What is served. */
export interface Answers {
  readonly page: { readonly html: string; readonly policy: string };
  /** The sheet of a number; undefined where it is no longer, or not yet, the one that is shown. */
  sheet(number: number): string | undefined;
  /** All that the page is told, as JSON; undefined where there is nothing to tell yet. */
  state(): string | undefined;
  /** What the values would come to, as JSON. */
  moved(told: Told): Promise<string>;
  write(told: Told): Promise<string>;
}

export interface Served {
  /** Where the page is; whoever has this has the token. */
  readonly address: string;
  /** Tells every page the state anew. */
  tell(): void;
  close(): Promise<void>;
}

/** Every answer forbids that it is kept, guessed at, framed or used by others, and tells nobody where it came from. */
const headers = {
  'cache-control': 'no-store',
  'x-content-type-options': 'nosniff',
  'referrer-policy': 'no-referrer',
  'cross-origin-resource-policy': 'same-origin',
  'cross-origin-opener-policy': 'same-origin',
} as const;

/** The page of the desk alone holds the sheet, which has a policy of its own in it. */
const sheetPolicy = "frame-ancestors 'self'; base-uri 'none'; form-action 'none'; object-src 'none'";
const nothingPolicy = "default-src 'none'; frame-ancestors 'none'";

/**
 * Serves the desk on the loopback address.
 *
 * @param port any that is free for 0
 * @throws UsageError where the port is taken, or may not be used
 */
export async function serve(port: number, answers: Answers): Promise<Served> {
  const server = createServer({
    maxHeaderSize: 8 * 1024,
    headersTimeout: 3_000,
    requestTimeout: 10_000,
    keepAliveTimeout: 5_000,
    connectionsCheckingInterval: 1_000,
  });
  server.maxHeadersCount = 60;
  const callers = callersOf(server);
  const pages = listeners();
  const token = randomBytes(24).toString('base64url');
  const door: { port: number; token: string } = { port, token };
  server.on('request', (request, response) => {
    // Whoever goes away before an answer is told is no fault.
    response.on('error', () => {});
    answer(request, response, door, answers, pages, () => callers.know(request.socket)).catch(() => {
      if (!response.headersSent) refuse(response, 500, 'the desk could not do this');
      else response.destroy();
    });
  });
  for (const event of ['upgrade', 'connect'] as const)
    server.on(event, (_: IncomingMessage, socket) => socket.destroy());
  server.on('clientError', (_, socket) => socket.destroy());
  door.port = await listening(server, port);
  // A connection that could not be taken, as where the system has no more of them, is not there; those that are, stay.
  server.on('error', () => {});
  return {
    address: `http://127.0.0.1:${door.port}/${token}/`,
    tell() {
      const state = answers.state();
      if (state !== undefined) pages.tell(state);
    },
    async close() {
      pages.end();
      server.closeAllConnections();
      await new Promise((done) => server.close(done));
    },
  };
}

async function listening(server: Server, port: number): Promise<number> {
  await new Promise<void>((done, fail) => {
    server.once('error', (error) =>
      fail(
        codeOf(error) === 'EADDRINUSE'
          ? new UsageError(`the port ${port} is taken`, 'leave --port out for one that is free')
          : new UsageError(`the port ${port} cannot be used: ${fileProblem(error)}`, 'leave --port out'),
      ),
    );
    server.listen({ host: '127.0.0.1', port, exclusive: true }, done);
  });
  return (server.address() as AddressInfo).port;
}

async function answer(
  request: IncomingMessage,
  response: ServerResponse,
  door: Door,
  answers: Answers,
  pages: Listeners,
  know: () => void,
): Promise<void> {
  const { method = '', url = '', rawHeaders } = request;
  const wanted = judge({ method, url, rawHeaders }, door);
  if ('status' in wanted) return refuse(response, wanted.status, wanted.said);
  know();
  switch (wanted.want) {
    case 'page':
      return send(response, 'text/html; charset=utf-8', answers.page.policy, answers.page.html);
    case 'sheet': {
      const sheet = answers.sheet(wanted.sheet);
      if (sheet === undefined) return refuse(response, 404, 'this sheet is not shown any more');
      return send(response, 'text/html; charset=utf-8', sheetPolicy, sheet);
    }
    case 'events': {
      if (pages.isFull()) return refuse(response, 503, 'the desk is open in too many windows');
      response.writeHead(200, {
        ...headers,
        'content-type': 'text/event-stream',
        'content-security-policy': nothingPolicy,
      });
      return pages.add(response, answers.state());
    }
    default: {
      const body = await bodyOf(request);
      if (!body) return refuse(response, 413, 'this is more than can be told at once');
      const told = toldIn(body);
      if (!told) return refuse(response, 400, 'this is not how it is told');
      send(response, 'application/json', nothingPolicy, await answers[wanted.want](told));
    }
  }
}

function send(response: ServerResponse, type: string, policy: string, body: string): void {
  const bytes = Buffer.from(body);
  response.writeHead(200, {
    ...headers,
    'content-type': type,
    'content-length': bytes.length,
    'content-security-policy': policy,
  });
  response.end(bytes);
}

/** What comes behind the head is not waited for. */
function refuse(response: ServerResponse, status: number, said: string): void {
  response.writeHead(status, {
    ...headers,
    'content-type': 'text/plain; charset=utf-8',
    'content-security-policy': nothingPolicy,
    connection: 'close',
  });
  response.end(`${said}\n`);
}

/** The port that a text names. @throws UsageError for what is none */
export function portOf(text: string): number {
  const port = Number(text);
  if (/^\d{1,5}$/u.test(text) && port >= 1 && port <= 65_535) return port;
  throw new UsageError(`${quoted(text)} is no port`, 'a port is a number from 1 to 65535');
}
