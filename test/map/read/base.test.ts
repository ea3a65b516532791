import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { type BaseText, baseNamed, mergedMap, readMap } from '../../../src/map/read/index.js';

const bytes = (text: string) => new TextEncoder().encode(text);

const shared = `format: keyslip-map/1
library: Cold Harbour Brass
family: brass
note-60: C4
range: [C2, C6]
articulations:
  short: {switch: {note: C0}, speaks-after: 20ms}
  long: {switch: {note: D0}}
dynamics: {controller: 1, levels: {p: 30, f: 90}}
rules:
  - when: {held: {below: 130ms}}
    use: short
  - use: long
`;
const own = `base: lib/shared.yaml
instrument: Horns
articulations:
  short: {switch: {note: E0}}
  far: {switch: {note: F0}}
dynamics: {levels: {f: 100, ff: 120}}
`;

function read(text: string, files: Readonly<Record<string, string | BaseText>>) {
  const texts = new Map(
    Object.entries(files).map(([path, one]) => [path, typeof one === 'string' ? bytes(one) : one]),
  );
  return readMap(bytes(text), 'maps/horns.yaml', { bases: { folder: 'maps/', texts } });
}

const told = (text: string, files: Readonly<Record<string, string | BaseText>>) =>
  read(text, files).diagnostics.map(({ code, place }) =>
    place.kind === 'text' ? `${code} ${place.file}:${place.line}:${place.column}` : code,
  );

describe('a map on a base', () => {
  it('takes from there what it does not say; articulations and levels by name, an articulation as a whole', () => {
    const { value, diagnostics } = read(own, { 'lib/shared.yaml': shared });
    expect(diagnostics).toEqual([]);
    expect(value).toMatchObject({ library: 'Cold Harbour Brass', instrument: 'Horns', family: 'brass' });
    expect(value?.bases).toEqual(['maps/lib/shared.yaml']);
    expect([...(value?.articulations.values() ?? [])]).toMatchObject([
      { name: 'short', switch: [{ key: 16 }], speaksAfter: [{ is: { ms: 0 } }] },
      { name: 'long', switch: [{ key: 14 }] },
      { name: 'far', switch: [{ key: 17 }] },
    ]);
    expect(value?.dynamics?.controller).toBe(1);
    expect(Object.fromEntries(value?.dynamics?.levels ?? [])).toEqual({ p: 30, f: 100, ff: 120 });
    expect(value?.rules.map(({ place }) => place)).toMatchObject([
      { file: 'maps/lib/shared.yaml', line: 11 },
      { file: 'maps/lib/shared.yaml', line: 13 },
    ]);
  });

  it('has rules and every other key whole, where it has them', () => {
    const rules = 'rules:\n  - use: far\nrange: [C3, C4]\n';
    const { value } = read(own + rules, { 'lib/shared.yaml': shared });
    expect(value?.rules).toMatchObject([{ use: 'far', place: { file: 'maps/horns.yaml' } }]);
    expect(value?.range).toEqual({ low: 48, high: 60 });
  });

  it('does not tell as missing what a base would have lent that cannot be read', () => {
    expect(told(own.replace('lib/shared', 'lib/shard'), { 'lib/shared.yaml': shared })).toEqual([
      'cannot-read maps/horns.yaml:1:7',
    ]);
  });

  it('tells faults in the file in which they stand', () => {
    const bad = shared.replace('use: short', 'use: shrot').replace('p: 30', 'p: 300');
    expect(told(own.replace('Horns', '7'), { 'lib/shared.yaml': bad })).toEqual([
      'wrong-type maps/horns.yaml:2:13',
      'out-of-range maps/lib/shared.yaml:9:39',
      'unknown-articulation maps/lib/shared.yaml:12:10',
    ]);
    expect(told(own.replace('note: F0', 'note: H9'), { 'lib/shared.yaml': shared })).toEqual([
      'bad-pitch maps/horns.yaml:5:24',
    ]);
    expect(told('base: lib/shared.yaml\n', { 'lib/shared.yaml': shared })).toEqual([
      'missing-key maps/horns.yaml:1:1',
    ]);
  });

  it('may rest on a chain of eight, each link from its own folder, and on no more (base-chain)', () => {
    const chain = (links: number) => {
      const path = (link: number) => `${'d/'.repeat(link)}x.yaml`;
      return Object.fromEntries(
        Array.from({ length: links }, (_, index) => [
          path(index + 1),
          index + 1 < links ? 'base: d/x.yaml\n' : shared,
        ]),
      );
    };
    const map = own.replace('lib/shared.yaml', 'd/x.yaml');
    expect(told(map, chain(8))).toEqual([]);
    expect(told(map, chain(9))).toContain(`base-chain maps/${'d/'.repeat(8)}x.yaml:1:7`);
  });

  it('may not rest on itself (base-chain)', () => {
    expect(told(`base: horns.yaml\n${shared}instrument: I\n`, {})).toEqual([
      'base-chain maps/horns.yaml:1:7',
    ]);
    expect(
      told(`base: a.yaml\n${shared}instrument: I\n`, { 'a.yaml': 'base: b.yaml', 'b.yaml': 'base: a.yaml' }),
    ).toEqual(['base-chain maps/b.yaml:1:7']);
  });

  it('rests on what lies beside it or below, and can be read', () => {
    const whole = `${shared}instrument: I\n`;
    expect(told(`base: ../x.yaml\n${whole}`, {})).toEqual(['path-outside maps/horns.yaml:1:7']);
    expect(told(`base: x.yaml\n${whole}`, {})).toEqual(['cannot-read maps/horns.yaml:1:7']);
    expect(told(`base: x.yaml\n${whole}`, { 'x.yaml': { code: 'map-too-large', problem: 'large' } })).toEqual(
      ['map-too-large maps/horns.yaml:1:7'],
    );
    expect(told(`base: x.yaml\n${whole}`, { 'x.yaml': '- a\n' })).toEqual([
      'cannot-read maps/horns.yaml:1:7',
    ]);
    expect(told(`base: x.yaml\n${whole}`, { 'x.yaml': 'a: [' })[0]).toMatch(/^yaml-syntax maps\/x\.yaml:1:/u);
    expect(told(`base: [x]\n${whole}`, {})).toEqual(['wrong-type maps/horns.yaml:1:7']);
  });

  it('is printed as one map, which means the same', () => {
    const texts = new Map([['lib/shared.yaml', bytes(shared)]]);
    const { value: text = '' } = mergedMap(bytes(own), 'maps/horns.yaml', { folder: 'maps/', texts });
    expect(Object.keys(parse(text))).toEqual([
      ...['format', 'library', 'instrument', 'family', 'note-60', 'range', 'articulations', 'rules'],
      'dynamics',
    ]);
    const { value: merged, diagnostics } = readMap(bytes(text), 'merged.yaml');
    expect(diagnostics).toEqual([]);
    const { value: map } = read(own, { 'lib/shared.yaml': shared });
    const plain = (one: typeof map) =>
      JSON.stringify({ ...one, bases: [], file: '', articulations: [...(one?.articulations ?? [])] }).replace(
        /"place":\{[^}]*\}/gu,
        '',
      );
    expect(plain(merged)).toBe(plain(map));
  });

  it('tells by its text which file is read next', () => {
    expect(baseNamed(bytes(own))).toBe('lib/shared.yaml');
    expect(baseNamed(bytes('base: ./x/../y.yaml'), 'lib/shared.yaml')).toBe('lib/y.yaml');
    expect(baseNamed(bytes('base: ../y.yaml'), 'lib/shared.yaml')).toBeUndefined();
    expect(baseNamed(bytes(shared))).toBeUndefined();
    expect(baseNamed(bytes('"b\\x61se": lib/shared.yaml\n'))).toBe('lib/shared.yaml');
    expect(baseNamed(bytes('library: base: x\n'))).toBeUndefined();
  });
});
