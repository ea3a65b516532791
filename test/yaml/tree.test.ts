import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { stringify } from 'yaml';
import { parseYaml } from '../../src/yaml/parse.js';
import { placeOf, placeOfKey } from '../../src/yaml/places.js';
import { draws } from '../support/draws.js';

const parse = (text: string) => parseYaml(new TextEncoder().encode(text), 'x.yaml');
const codesOf = (text: string) => parse(text).diagnostics.map(({ code }) => code);

describe('a document as data', () => {
  it('is what was written', () => {
    fc.assert(
      fc.property(fc.jsonValue({ maxDepth: 4 }), (value) => {
        // -0 is written as 0, and a __proto__ is compared as text: toEqual would ask for prototypes.
        expect(JSON.stringify(parse(stringify(value)).value?.root.data)).toBe(JSON.stringify(value));
      }),
      { seed: 61, numRuns: draws(300) },
    );
  });

  it('has no prototypes, and keys like any other', () => {
    const data = parse('__proto__: {polluted: 1}\nconstructor: a\n').value?.root.data;
    expect(Object.getPrototypeOf(data)).toBeNull();
    expect(Object.entries(data as object)).toEqual([
      ['__proto__', Object.assign(Object.create(null), { polluted: 1 })],
      ['constructor', 'a'],
    ]);
    expect(({} as { polluted?: number }).polluted).toBeUndefined();
  });

  it('has keys as they are written', () => {
    expect(
      Object.keys(parse('{1: a, true: b, null: c, "d e": f, 0x10: g}').value?.root.data as object),
    ).toEqual(['1', 'true', 'null', 'd e', '0x10']);
  });

  it('knows where every key and value stands', () => {
    const { value: yaml } = parse('a:\n  - b\n  - {c: 1, d: }\n"e": \n');
    if (!yaml) throw new Error('it cannot be read');
    expect(placeOf(yaml, ['a', 1, 'c'])).toEqual({ kind: 'text', file: 'x.yaml', line: 3, column: 9 });
    expect(placeOfKey(yaml, ['a', 1], 'd')).toMatchObject({ line: 3, column: 12 });
    expect(placeOfKey(yaml, [], 'e')).toMatchObject({ line: 4, column: 1 });
    expect(placeOf(yaml, ['a', 0, 'further', 'on'])).toMatchObject({ line: 2, column: 5 });
  });
});

describe('keys that stand twice (yaml-duplicate-key)', () => {
  it('are told of once for each mapping and key, where they stand again; the first counts', () => {
    const { value, diagnostics } = parse('a: 1\nb: {c: 1, c: 2}\na: 3\na: 4\n');
    expect(value?.root.data).toEqual({ a: 1, b: { c: 1 } });
    expect(diagnostics).toMatchObject([
      {
        code: 'yaml-duplicate-key',
        place: { line: 2, column: 11 },
        message: expect.stringContaining('"c" stands twice'),
      },
      {
        code: 'yaml-duplicate-key',
        place: { line: 3, column: 1 },
        message: expect.stringContaining('"a" stands 3 times'),
      },
    ]);
  });

  it('are the same however they are written', () => {
    expect(codesOf('1: a\n"1": b\n')).toEqual(['yaml-duplicate-key']);
    expect(codesOf('&k a: 1\n*k : 2\n')).toEqual(['yaml-duplicate-key']);
  });
});

describe('aliases', () => {
  it('stand for what has their anchor last, further up', () => {
    expect(parse('a: &x {b: 1}\nc: *x\nd: &x 2\ne: *x\n').value?.root.data).toEqual({
      a: { b: 1 },
      c: { b: 1 },
      d: 2,
      e: 2,
    });
  });

  it('stand for nothing without an anchor (yaml-syntax), and not for what they stand in (yaml-alias)', () => {
    expect(parse('a: *x\nb: &x 1\n').diagnostics).toMatchObject([
      { code: 'yaml-syntax', place: { line: 1, column: 4 } },
    ]);
    expect(parse('a: &x [1, {b: *x}]\n').diagnostics).toMatchObject([
      { code: 'yaml-alias', place: { line: 1, column: 15 } },
    ]);
  });

  it('stand for ten thousand values at most (yaml-alias)', () => {
    const many = (times: number) =>
      `a: &x [${Array(99).fill('0').join(', ')}]\nb: [${Array(times).fill('*x').join(', ')}]\n`;
    expect(parse(many(100)).value).toBeDefined();
    expect(parse(many(101))).toMatchObject({
      value: undefined,
      diagnostics: [{ code: 'yaml-alias', place: { line: 2 } }],
    });
  });
});
