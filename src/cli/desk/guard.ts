import { createHash, timingSafeEqual } from 'node:crypto';

/** What a request says of itself, before its body is read. */
export interface Asked {
  readonly method: string;
  /** As it was sent: it is compared, and never decoded. */
  readonly url: string;
  /** Names and values in turn, as they were sent. */
  readonly rawHeaders: readonly string[];
}

/** Where the desk is, and what opens it. */
export interface Door {
  readonly port: number;
  readonly token: string;
}

/** What is wanted of the desk. */
export type Wanted =
  | { readonly want: 'page' | 'events' | 'moved' | 'write' }
  | { readonly want: 'sheet'; readonly sheet: number };

/** What a request is answered that gets nothing. */
export interface TurnedAway {
  readonly status: number;
  readonly said: string;
}

/**
 * Judges a request by its head: only whoever knows the token, speaks to this very address and comes from its own page gets
 * anything. Known paths are all that there is: nothing of a request ever becomes a path of a file.
 */
export function judge(asked: Asked, door: Door): Wanted | TurnedAway {
  const host = only(asked, 'host');
  const origins = [`http://127.0.0.1:${door.port}`, `http://localhost:${door.port}`];
  if (!origins.includes(`http://${host}`))
    return { status: 403, said: 'the desk is reached by its own address only' };
  const [begin, token = '', ...rest] = asked.url.split('/');
  if (begin !== '' || rest.length === 0 || !isSame(token, door.token)) return nowhere;
  const site = only(asked, 'sec-fetch-site');
  const isOpened = asked.method === 'GET' && only(asked, 'sec-fetch-dest') === 'document';
  if (site !== undefined && site !== 'same-origin' && site !== 'none' && !isOpened)
    return { status: 403, said: 'another page asks for this' };
  const origin = only(asked, 'origin');
  const isPost = asked.method === 'POST';
  if (isPost ? origin !== `http://${host}` : origin !== undefined && origin !== `http://${host}`)
    return { status: 403, said: 'only the page of the desk asks for this' };
  const wanted = wantedBy(rest.join('/'));
  if (!wanted) return nowhere;
  const isChange = wanted.want === 'moved' || wanted.want === 'write';
  if (asked.method !== (isChange ? 'POST' : 'GET'))
    return { status: 405, said: 'this is asked for otherwise' };
  if (isChange && !/^application\/json(; *charset=utf-8)?$/iu.test(only(asked, 'content-type') ?? ''))
    return { status: 415, said: 'this is told as application/json' };
  return wanted;
}

const nowhere: TurnedAway = { status: 404, said: 'nothing is here' };

function wantedBy(path: string): Wanted | undefined {
  switch (path) {
    case '':
      return { want: 'page' };
    case 'events':
    case 'moved':
    case 'write':
      return { want: path };
    default: {
      const sheet = /^sheet\/([1-9]\d{0,8})$/u.exec(path)?.[1];
      return sheet === undefined ? undefined : { want: 'sheet', sheet: Number(sheet) };
    }
  }
}

/** The value of a header that is there once; undefined where it is not, or several times. */
function only({ rawHeaders }: Asked, name: string): string | undefined {
  const values = rawHeaders.filter(
    (_, index) => index % 2 === 1 && rawHeaders[index - 1]?.toLowerCase() === name,
  );
  return values.length === 1 ? values[0] : values.length === 0 ? undefined : '';
}

/** Takes as long for a token that is nearly right as for any other. */
function isSame(one: string, other: string): boolean {
  const [a, b] = [one, other].map((text) => createHash('sha256').update(text).digest());
  return a !== undefined && b !== undefined && timingSafeEqual(a, b);
}
