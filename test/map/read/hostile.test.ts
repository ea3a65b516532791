import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { stringify } from 'yaml';
import { readMap } from '../../../src/map/read/index.js';
import { anyText } from '../../support/any-text.js';
import { draws, size } from '../../support/draws.js';

const read = (yaml: string) => readMap(new TextEncoder().encode(yaml), 'hostile.yaml');
const codes = (yaml: string) => read(yaml).diagnostics.map(({ code }) => code);

describe('files that mean harm, or make no sense, get a clear answer', () => {
  it('ten megabytes (map-too-large), unless the limit is raised', () => {
    const large = `# ${'x'.repeat(10_000_000)}\n`;
    expect(read(large).diagnostics).toMatchObject([
      { code: 'map-too-large', hint: expect.stringContaining('--max-map') },
    ]);
    expect(readMap(new TextEncoder().encode(large), 'x', { maxBytes: 20_000_000 }).diagnostics).toMatchObject(
      [{ code: 'map-empty' }],
    );
  });

  it('aliases of aliases of aliases (yaml-alias)', () => {
    const bomb = [
      'a: &a [x, x, x, x, x, x, x, x, x]',
      ...'bcdefghi'
        .split('')
        .map((name, index) => `${name}: &${name} [${Array(9).fill(`*${'abcdefgh'[index]}`).join(', ')}]`),
    ].join('\n');
    expect(codes(bomb)).toEqual(['yaml-alias']);
  });

  it('brackets and dashes without end', () => {
    for (const text of [
      '['.repeat(size(100_000)),
      '{a: '.repeat(size(50_000)),
      `a:\n${'- '.repeat(size(100_000))}x`,
      '- '.repeat(size(100_000)),
      'a: '.repeat(10_000),
      '? '.repeat(size(50_000)),
      '"'.repeat(2 * size(50_000) + 1),
      '&a '.repeat(size(50_000)),
    ]) {
      const found = codes(text);
      expect(found.length).toBeGreaterThan(0);
    }
    const stairs = Array.from({ length: 600 }, (_, depth) => `${' '.repeat(depth)}a:`).join('\n');
    expect(codes(stairs).length).toBeGreaterThan(0);
  });

  it('keys that every object has', () => {
    for (const key of ['__proto__', 'constructor', 'toString', 'hasOwnProperty', '__defineGetter__'])
      expect(codes(`${key}: {x: 1}\n`)).toContain('unknown-key');
    const named = (name: string) =>
      `format: keyslip-map/1\nlibrary: L\ninstrument: I\nfamily: other\nnote-60: C4\nrange: [C2, C3]\narticulations:\n  ${name}: {switch: {note: C0}}\nrules:\n  - use: ${name}\n`;
    expect(read(named('constructor')).value?.articulations.has('constructor')).toBe(true);
    expect(codes(named('__proto__'))).toContain('bad-name');
    expect(codes(named('valueof').replace('use: valueof', 'use: toString'))).toContain(
      'unknown-articulation',
    );
    expect(({} as { x?: number }).x).toBeUndefined();
  });

  it('bytes that are no text (yaml-syntax), with the line', () => {
    const bytes = new Uint8Array([...new TextEncoder().encode('format: x\nlibrary: '), 0xff, 0xfe]);
    expect(readMap(bytes, 'x').diagnostics).toMatchObject([
      { code: 'yaml-syntax', place: { line: 2, column: 10 } },
    ]);
  });

  it('tags, documents one after another, merges, numbers like infinity', () => {
    for (const text of [
      '!!js/function "x"',
      '--- a\n--- b\n',
      '<<: *x',
      'format: .inf',
      '1e999',
      '- - -',
      '!<x> y',
      '%YAML 9.9\n--- a',
      '\u0000',
      '? [a, b]\n: c',
    ])
      expect(codes(text).length).toBeGreaterThan(0);
  });

  it('anything that YAML can say', () => {
    fc.assert(
      fc.property(fc.jsonValue({ maxDepth: 5 }), (value) => {
        const { value: map, diagnostics } = read(stringify(value));
        expect(map === undefined).toBe(diagnostics.some(({ severity }) => severity === 'error'));
      }),
      { seed: 41, numRuns: draws(200) },
    );
  });

  it('any text at all', () => {
    fc.assert(
      fc.property(anyText(200), (text) => {
        expect(read(text).value).toBeUndefined();
      }),
      { seed: 42, numRuns: draws(300) },
    );
  });

  it('files full of mistakes: each is told, once', () => {
    // A thorough run fills what a file may have.
    const room = size(250_000);
    const fill = (piece: (index: number) => string) => {
      const pieces: string[] = [];
      for (let index = 0, length = 0; length < room; index++) {
        pieces.push(piece(index));
        length += piece(index).length;
      }
      return pieces;
    };
    const head =
      'format: keyslip-map/1\nlibrary: L\ninstrument: I\nfamily: other\nnote-60: C4\nrange: [C2, C3]\n';
    const rest = 'articulations: {a: {switch: {note: C0}}}\nrules: [{use: a}]\n';
    const count = (yaml: string, code: string) => codes(yaml).filter((one) => one === code).length;

    const keys = fill((index) => `k${index}: 1\n`);
    expect(count(`${head}${rest}${keys.join('')}`, 'unknown-key')).toBe(keys.length);
    expect(codes(`${head}${rest}${fill(() => 'same: 1\n').join('')}`)).toEqual([
      'unknown-key',
      'yaml-duplicate-key',
    ]);
    const rules = fill(() => '- x: 1\n');
    expect(count(`${head}articulations: {a: {}}\nrules:\n${rules.join('')}`, 'missing-key')).toBe(
      rules.length,
    );
    const marks = fill((index) => `stacato${index}`);
    expect(
      count(
        `${head}${rest.replace('switch', `means: [${marks.join(', ')}], switch`)}`.slice(0, 262_000),
        'x',
      ),
    ).toBe(0);
    const names = fill((index) => `abcd${index % 9}`);
    const many = Array.from(
      { length: 500 },
      (_, index) => `abcd-${index}: {switch: {controller: 1, value: ${index % 128}}}`,
    );
    expect(
      codes(
        `${head}articulations: {${many.join(', ')}}\nrules: [{use: abcd-0}]\nexamples: [{notes: [{pitch: C2, held: 1s}], expect: [${names.slice(0, 20_000).join(', ')}]}]\n`,
      ),
    ).toContain('unknown-articulation');
  });

  it('a thousand rules and five hundred articulations are read at once', () => {
    const names = Array.from({ length: 500 }, (_, index) => `a${index}`);
    const yaml = `format: keyslip-map/1\nlibrary: L\ninstrument: I\nfamily: other\nnote-60: C4\nrange: [C2, C3]\narticulations:\n${names.map((name, index) => `  ${name}: {switch: [{controller: 20, value: ${index % 128}}, {program: ${Math.floor(index / 128)}}]}`).join('\n')}\nrules:\n${Array.from({ length: 999 }, (_, index) => `  - {when: {held: {from: ${index}ms, below: ${index + 2}ms}, velocity: {from: ${1 + (index % 127)}}}, use: a${index % 500}}`).join('\n')}\n  - use: a0\n`;
    expect(read(yaml).value?.rules).toHaveLength(1000);
  });
});
