import { describe, expect, it } from 'vitest';
import { judge } from '../../../src/cli/desk/guard.js';

const door = { port: 4123, token: 'secret' };
const own = { host: '127.0.0.1:4123' };
const change = { ...own, origin: 'http://127.0.0.1:4123', 'content-type': 'application/json' };

function asked(url: string, headers: Readonly<Record<string, string>> = own, method = 'GET') {
  return judge({ method, url, rawHeaders: Object.entries(headers).flat() }, door);
}

describe('what the desk answers', () => {
  it('gives its page, its sheet and its news to whoever has the token', () => {
    expect(asked('/secret/')).toEqual({ want: 'page' });
    expect(asked('/secret/events')).toEqual({ want: 'events' });
    expect(asked('/secret/sheet/12')).toEqual({ want: 'sheet', sheet: 12 });
    expect(asked('/secret/', { host: 'localhost:4123' })).toEqual({ want: 'page' });
    expect(asked('/secret/moved', change, 'POST')).toEqual({ want: 'moved' });
    expect(
      asked('/secret/write', { ...change, 'content-type': 'application/json; charset=utf-8' }, 'POST'),
    ).toEqual({
      want: 'write',
    });
  });

  it.each([
    '/',
    '/secret',
    '/Secret/',
    '/secre/',
    '/secrett/',
    '//secret/',
    '/secret//',
    'secret/',
    '*',
    '',
    '/secret/../secret/',
    '/secret/./',
    '/secret/%2e%2e/',
    '/%73ecret/',
    '/secret/sheet/0',
    '/secret/sheet/01',
    '/secret/sheet/1/',
    '/secret/sheet/1?x',
    '/secret/?',
    '/secret/#',
    '/secret/sheet/../../etc/passwd',
    '/secret/\\events',
    '/secret/sheet/9999999999',
    'http://127.0.0.1:4123/secret/',
    '/secret/events\u0000',
    '/secret/skerry-point.cue.yaml',
  ])('has nothing at %j', (url) => {
    expect(asked(url)).toMatchObject({ status: 404 });
  });

  // Another name that leads to this machine is how a page elsewhere would get at it (DNS rebinding).
  it.each([
    'example.org',
    'example.org:4123',
    '127.0.0.1',
    '127.0.0.1:4124',
    'localhost',
    '[::1]:4123',
    '0.0.0.0:4123',
    '',
  ])('does not answer to the name %j', (host) => {
    expect(asked('/secret/', { host })).toMatchObject({ status: 403 });
  });

  it('does not answer to two names, or none', () => {
    expect(judge({ method: 'GET', url: '/secret/', rawHeaders: [] }, door)).toMatchObject({ status: 403 });
    const rawHeaders = ['Host', '127.0.0.1:4123', 'host', '127.0.0.1:4123'];
    expect(judge({ method: 'GET', url: '/secret/', rawHeaders }, door)).toMatchObject({ status: 403 });
  });

  it.each([
    ['no origin', { ...own, 'content-type': 'application/json' }, 403],
    ['another origin', { ...change, origin: 'http://example.org' }, 403],
    ['another port', { ...change, origin: 'http://127.0.0.1:4124' }, 403],
    ['its other name', { ...change, origin: 'http://localhost:4123' }, 403],
    ['a page without an origin', { ...change, origin: 'null' }, 403],
    ['a form', { ...change, 'content-type': 'application/x-www-form-urlencoded' }, 415],
    ['plain text', { ...change, 'content-type': 'text/plain' }, 415],
    ['another site', { ...change, 'sec-fetch-site': 'cross-site' }, 403],
    ['another port of the machine', { ...change, 'sec-fetch-site': 'same-site' }, 403],
  ])('takes no change from %s', (_, headers, status) => {
    expect(asked('/secret/write', headers, 'POST')).toMatchObject({ status });
  });

  it('is opened by a link from elsewhere, but its parts are not taken from elsewhere', () => {
    const elsewhere = { ...own, 'sec-fetch-site': 'cross-site' };
    expect(asked('/secret/', { ...elsewhere, 'sec-fetch-dest': 'document' })).toEqual({ want: 'page' });
    for (const to of ['script', 'iframe', 'image', 'empty'])
      expect(asked('/secret/sheet/1', { ...elsewhere, 'sec-fetch-dest': to })).toMatchObject({ status: 403 });
    expect(asked('/secret/events', { ...own, origin: 'http://example.org' })).toMatchObject({ status: 403 });
  });

  it.each(['PUT', 'DELETE', 'OPTIONS', 'HEAD', 'TRACE'])('does not know %s', (method) => {
    for (const url of ['/secret/', '/secret/write'])
      expect(asked(url, change, method)).toMatchObject({ status: 405 });
  });

  it('knows what is asked for and what is told apart', () => {
    expect(asked('/secret/', change, 'POST')).toMatchObject({ status: 405 });
    expect(asked('/secret/write')).toMatchObject({ status: 405 });
  });
});
