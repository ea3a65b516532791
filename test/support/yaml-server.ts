import { type ChildProcessWithoutNullStreams, spawn } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { pathToFileURL } from 'node:url';

export interface Found {
  readonly message: string;
  readonly range: { readonly start: { readonly line: number } };
}

interface Message {
  readonly id?: number;
  readonly method?: string;
  readonly result?: unknown;
  readonly params?: unknown;
}

interface Position {
  readonly line: number;
  readonly character: number;
}

/** The YAML language server that editors start, as another program: it is spoken to as they do (LSP 3.17). */
export class YamlServer {
  readonly #server: ChildProcessWithoutNullStreams;
  readonly #answers = new Map<number, (result: unknown) => void>();
  readonly #found = new Map<string, (found: readonly Found[]) => void>();
  #unread = Buffer.alloc(0);
  #asked = 0;
  /** What the server asked its editor to fetch from elsewhere. */
  readonly fetched: unknown[] = [];

  constructor() {
    const home = dirname(createRequire(import.meta.url).resolve('yaml-language-server/package.json'));
    // A proxy that is not there: whoever asks the network for something gets an error.
    const env = { ...process.env, HTTP_PROXY: 'http://127.0.0.1:9', HTTPS_PROXY: 'http://127.0.0.1:9' };
    this.#server = spawn(process.execPath, [join(home, 'bin/yaml-language-server'), '--stdio'], { env });
    this.#server.stdout.on('data', (bytes: Buffer) => this.#read(bytes));
  }

  async start(): Promise<void> {
    await this.#ask('initialize', { processId: process.pid, rootUri: null, capabilities: {} });
    this.#tell('initialized', {});
    const yaml = { validate: true, hover: true, completion: true, schemaStore: { enable: false } };
    this.#tell('workspace/didChangeConfiguration', { settings: { yaml } });
  }

  /** Opens a file with a text, and gives what is found wrong with it. */
  open(file: string, text = readFileSync(file, 'utf8')): Promise<readonly Found[]> {
    const uri = pathToFileURL(file).href;
    const found = new Promise<readonly Found[]>((resolve) => this.#found.set(uri, resolve));
    this.#tell('textDocument/didOpen', { textDocument: { uri, languageId: 'yaml', version: 1, text } });
    return found;
  }

  /** The keys and values that are offered at a place. */
  async complete(file: string, position: Position): Promise<readonly string[]> {
    const result = (await this.#ask('textDocument/completion', at(file, position))) as {
      readonly items: readonly { readonly label: string }[];
    } | null;
    return (result?.items ?? []).map(({ label }) => label);
  }

  /** What is said of the key at a place. */
  async hover(file: string, position: Position): Promise<string> {
    return JSON.stringify(await this.#ask('textDocument/hover', at(file, position)));
  }

  stop(): void {
    this.#server.kill();
  }

  #ask(method: string, params: unknown): Promise<unknown> {
    const id = ++this.#asked;
    const answer = new Promise<unknown>((resolve) => this.#answers.set(id, resolve));
    this.#send({ id, method, params });
    return answer;
  }

  #tell(method: string, params: unknown): void {
    this.#send({ method, params });
  }

  #send(message: Message): void {
    const body = JSON.stringify({ jsonrpc: '2.0', ...message });
    this.#server.stdin.write(`Content-Length: ${Buffer.byteLength(body)}\r\n\r\n${body}`);
  }

  #read(bytes: Buffer): void {
    this.#unread = Buffer.concat([this.#unread, bytes]);
    for (;;) {
      const end = this.#unread.indexOf('\r\n\r\n');
      if (end < 0) return;
      const [, size = '0'] = /Content-Length: (\d+)/iu.exec(this.#unread.toString('latin1', 0, end)) ?? [];
      const from = end + 4;
      if (this.#unread.length < from + Number(size)) return;
      const body = this.#unread.toString('utf8', from, from + Number(size));
      this.#unread = this.#unread.subarray(from + Number(size));
      this.#take(JSON.parse(body) as Message);
    }
  }

  #take({ id, method, result, params }: Message): void {
    if (method === 'textDocument/publishDiagnostics') {
      const { uri, diagnostics } = params as { uri: string; diagnostics: readonly Found[] };
      this.#found.get(uri)?.(diagnostics);
    } else if (method !== undefined && id !== undefined) {
      // The server asks: of settings there are none but those it was told.
      if (/content/iu.test(method)) this.fetched.push(params);
      this.#send({ id, result: method === 'workspace/configuration' ? [] : null });
    } else if (id !== undefined) {
      this.#answers.get(id)?.(result);
      this.#answers.delete(id);
    }
  }
}

function at(file: string, position: Position) {
  return { textDocument: { uri: pathToFileURL(file).href }, position };
}
