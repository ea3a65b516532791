import { describe, expect, it } from 'vitest';
import type { DiagnosticCode } from '../../../src/diagnostics/codes.js';
import type { Diagnostic } from '../../../src/diagnostics/diagnostic.js';
import { readMap } from '../../../src/map/read/index.js';

/** A map in order, to be spoilt. Line numbers count from the line of `format`, which is 1. */
const good = `format: keyslip-map/1
library: Test Library
instrument: Test Horn
family: brass
note-60: C4
range: [C2, C6]
articulations:
  short:
    means: [staccato]
    switch: {note: C0}
    speaks-after: 40ms
  long:
    switch: {note: D0}
steadiness: 10%
rules:
  - when: {held: {below: 130ms}}
    use: short
  - use: long
examples:
  - notes: [{pitch: C4, held: 90ms}]
    expect: [short]
`;

function read(yaml: string | Uint8Array): readonly Diagnostic[] {
  return readMap(typeof yaml === 'string' ? new TextEncoder().encode(yaml) : yaml, 'horn.yaml').diagnostics;
}

/** Diagnostics in short: `code line:column`. */
function found(yaml: string): readonly string[] {
  return read(yaml).map(({ code, place }) =>
    place.kind === 'text' ? `${code} ${place.line}:${place.column}` : code,
  );
}

const spoil = (from: string | RegExp, to: string) => {
  const text = good.replace(from, to);
  if (text === good) throw new Error(`nothing to spoil: ${String(from)}`);
  return text;
};

describe('a map in order', () => {
  it('is read without a word', () => {
    expect(read(good)).toEqual([]);
  });
  it('may have a byte order mark and line ends of any kind', () => {
    expect(read(`\ufeff${good}`)).toEqual([]);
    expect(read(good.replaceAll('\n', '\r\n'))).toEqual([]);
  });
});

/** Every code with a bad input that causes it, where it points, and what it hints. */
const cases: readonly (readonly [code: DiagnosticCode, yaml: string, where: string, hint?: string])[] = [
  ['yaml-syntax', spoil('range: [C2, C6]', 'range: [C2, C6'), '7:1'],
  ['yaml-syntax', spoil('  short:', '\tshort:'), '8:1', 'spaces'],
  ['yaml-duplicate-key', spoil('family: brass', 'family: brass\nfamily: brass'), '5:1'],
  ['unknown-key', spoil('library:', 'libary:'), '2:1', 'did you mean "library"?'],
  ['unknown-key', spoil('below:', 'bellow:'), '16:19', 'did you mean "below"?'],
  ['unknown-key', spoil('    switch: {note: D0}', '    swich: {note: D0}'), '13:5', 'did you mean "switch"?'],
  ['unknown-key', spoil('family: brass', 'family: brass\n__proto__: {a: 1}'), '5:1'],
  ['missing-key', spoil('library: Test Library\n', ''), '1:1'],
  ['wrong-type', spoil('library: Test Library', 'library: [a]'), '2:10'],
  ['unknown-value', spoil('family: brass', 'family: bras'), '4:9', 'did you mean "brass"?'],
  ['unknown-value', spoil('keyslip-map/1', 'keyslip-map/2'), '1:9'],
  ['out-of-range', spoil('family: brass', 'family: brass\nplayers: 0'), '5:10', 'at least 1'],
  [
    'out-of-range',
    spoil('family: brass', 'family: brass\npan: {left: -5, half-left: -6, right: 5}'),
    '5:28',
    'from left to right',
  ],
  ['out-of-range', spoil('range: [C2, C6]', 'range: [C2]'), '6:8', 'at least 2'],
  ['bad-duration', spoil('40ms', '40'), '11:19', '25ms'],
  ['bad-duration', spoil('130ms', '130 ms'), '16:26', '25ms'],
  ['bad-pitch', spoil('{note: C0}', '{note: H0}'), '10:20', 'C3'],
  ['bad-pitch', spoil('range: [C2, C6]', 'range: [C2, C12]'), '6:13', 'note-60'],
  ['bad-pitch', spoil('{note: C0}', '{note: 128}'), '10:20'],
  ['bad-name', spoil('  long:\n', '  Long One:\n').replace('use: long', 'use: short'), '12:3', 'lower-case'],
  ['bad-percentage', spoil('10%', '0.1'), '14:13', '15%'],
  ['bad-switch', spoil('{note: C0}', '{note: C0, program: 4}'), '10:13', 'exactly one'],
  ['bad-switch', spoil('{note: C0}', '{controller: 4}'), '10:13', 'together'],
  ['bad-switch', spoil('{note: C0}', '{aspect: mute}'), '10:13', 'exactly one'],
  ['map-empty', '# nothing\n', ''],
  ['unknown-articulation', spoil('use: short', 'use: shrot'), '17:10', 'did you mean "short"?'],
  ['unknown-articulation', spoil('expect: [short]', 'expect: [shorter]'), '21:14', 'did you mean "short"?'],
  ['unknown-mark', spoil('means: [staccato]', 'means: [stacatto]'), '9:13', 'did you mean "staccato"?'],
  // An articulation's name is a mark, but not what an articulation means: it is not suggested.
  ['unknown-mark', spoil('means: [staccato]', 'means: [shortt]'), '9:13', 'M2-123'],
  ['unknown-mark', spoil('  - when: {held', '  - marked: pizicato\n    when: {held'), '16:13', 'pizz.'],
  ['same-switch', spoil('{note: D0}', '{note: C0}'), '12:3'],
  ['same-switch', spoil('{note: D0}', '[]').replace('    switch: {note: C0}\n', ''), '11:3'],
  ['switch-in-range', spoil('{note: D0}', '{note: D3}'), '13:13', 'note-60'],
  ['range-reversed', spoil('[C2, C6]', '[C6, C2]'), '6:8', 'lowest'],
  ['range-reversed', spoil('{below: 130ms}', '{from: 130ms, below: 130ms}'), '16:18'],
  ['range-reversed', spoil('{held: {below: 130ms}}', '{velocity: {from: 90, to: 80}}'), '16:22'],
  ['no-last-rule', spoil('  - use: long\n', '  - marked: tenuto\n    use: long\n'), '18:5', 'use alone'],
  ['aspect-used-twice', spoil('{note: D0}', '[{note: D0}, {note: E0}]'), '13:26', 'aspect'],
  ['mixed-aspect', spoil('{note: D0}', '{note: C0, aspect: mute}'), '12:3', 'same aspect'],
  ['example-length', spoil('expect: [short]', 'expect: [short, short]'), '21:13'],
];

describe('every diagnostic of maps', () => {
  for (const [code, yaml, where, hint] of cases)
    it(`${code} at ${where || 'the file'}`, () => {
      const diagnostic = read(yaml).find((one) => one.code === code);
      expect(found(yaml)).toContain(where ? `${code} ${where}` : code);
      expect(diagnostic?.severity).toBe('error');
      if (hint !== undefined) expect(diagnostic?.hint).toContain(hint);
    });

  it('are each told once, all together, in the order of the file', () => {
    const many = good
      .replace('library:', 'libary:')
      .replace('brass', 'bras')
      .replace('40ms', 'x')
      .replace('{note: D0}', '{nte: 4}');
    expect(found(many)).toEqual([
      'missing-key 1:1',
      'unknown-key 2:1',
      'unknown-value 4:9',
      'bad-duration 11:19',
      'bad-switch 13:13',
      'unknown-key 13:14',
    ]);
    expect(found(good.replace('use: short', 'use: shrot').replace('{note: D0}', '{note: C0}'))).toEqual([
      'same-switch 12:3',
      'unknown-articulation 17:10',
    ]);
  });
});

describe('warnings of maps', () => {
  const warned = (yaml: string) =>
    read(yaml).map(({ code, severity, place }) => [code, severity, place.kind === 'text' ? place.line : 0]);

  it('dead-rule: behind one without conditions', () => {
    expect(warned(spoil('  - use: long\n', '  - use: long\n  - use: short\n'))).toEqual([
      ['dead-rule', 'warning', 19],
    ]);
  });
  it('dead-rule: asks for at least as much as one above it', () => {
    const rule = '  - when: {held: {from: 20ms, below: 100ms}, velocity: {from: 90}}\n    use: long\n';
    expect(warned(spoil('  - use: long\n', `${rule}  - use: long\n`))).toEqual([
      ['dead-rule', 'warning', 18],
    ]);
  });
  it('dead-rule: a range that the rules above cover between them', () => {
    const rules =
      '  - when: {held: {from: 120ms, below: 400ms}}\n    use: long\n  - when: {held: {from: 50ms, below: 390ms}}\n    use: short\n';
    expect(warned(spoil('  - use: long\n', `${rules}  - use: long\n`))).toEqual([
      ['dead-rule', 'warning', 20],
    ]);
  });
  it('none where a rule still has something to take', () => {
    const rules = [
      '  - when: {held: {from: 135ms, below: 400ms}}\n    use: long\n  - when: {held: {from: 50ms, below: 390ms}}\n    use: short\n',
      '  - when: {held: {below: 1/16}}\n    use: long\n',
      '  - marked: accent\n    when: {held: {below: 200ms}}\n    use: long\n',
      '  - when: {not: {held: {below: 100ms}}}\n    use: long\n',
      '  - when: {any: [{held: {below: 100ms}}, {velocity: {from: 9}}]}\n    use: long\n',
    ];
    for (const rule of rules) expect(warned(spoil('  - use: long\n', `${rule}  - use: long\n`))).toEqual([]);
  });
  it('aspect-left-behind: an aspect that only some articulations set', () => {
    expect(warned(spoil('{note: D0}', '[{note: D0}, {controller: 68, value: 127}]'))).toEqual([
      ['aspect-left-behind', 'warning', 8],
    ]);
    expect(warned(spoil('{note: D0}', '[]'))).toEqual([['aspect-left-behind', 'warning', 12]]);
    expect(warned(spoil('{note: D0}', '[{note: D0}, {note: E0, aspect: mute}]'))).toEqual([]);
    expect(
      warned(spoil('{note: D0}', '[]').replace('steadiness', 'switching: {notes: momentary}\nsteadiness')),
    ).toEqual([]);
  });
});

describe('hidden-articulation', () => {
  const warned = (yaml: string) =>
    read(yaml).flatMap(({ code, place }) => (place.kind === 'text' ? [`${code} ${place.line}`] : []));
  it('an articulation that leaves a named aspect as another set it', () => {
    expect(warned(spoil('{note: D0}', '[{note: C0}, {note: E0, aspect: mute}]'))).toEqual([
      'hidden-articulation 8',
    ]);
  });
  it('an articulation that leaves the bank as another set it', () => {
    expect(
      warned(spoil('{note: C0}', '{program: 4}').replace('{note: D0}', '{program: 4, bank: [1, 0]}')),
    ).toEqual(['hidden-articulation 8']);
  });
  it('none where each says what it needs', () => {
    const each = spoil('{note: C0}', '[{note: C0}, {note: F0, aspect: mute}]').replace(
      '{note: D0}',
      '[{note: C0}, {note: E0, aspect: mute}]',
    );
    expect(warned(each)).toEqual([]);
  });
});

describe('the example of the format', () => {
  // Section 1 of the format's description, with names of our own.
  it('is a map in order; what it leaves set is warned of', () => {
    const yaml = `format: keyslip-map/1
library: Cold Harbour Brass
instrument: Horns, section of six
family: brass
players: 6
note-60: C4
range: [B1, F5]
switching:
  notes: latching
  lead: 25ms
  tap: 30ms
  velocity: 100
  restate: {after-rest: 2s, every-bars: 8}
articulations:
  staccato-short: {means: [staccatissimo], switch: {note: C0}, loudness: velocity, speaks-after: 40ms}
  staccato-long: {means: [staccato], switch: {note: D0}, loudness: velocity, speaks-after: 60ms}
  sustain: {means: [tenuto], switch: {note: F0}, loudness: controller, speaks-after: 90ms}
  legato:
    switch: [{note: G0}, {controller: 68, value: 127}]
    joins: {overlap: 40ms}
    loudness: controller
    speaks-after: 140ms
  muted: {switch: [{program: 59, bank: [0, 0]}]}
  far: {switch: [{channel: 3}]}
steadiness: 15%
rules:
  - marked: [staccatissimo, spiccato]
    use: staccato-short
  - when: {overlaps-next: true}
    use: legato
  - when: {held: {below: 130ms}}
    use: staccato-short
  - when: {held: {from: 130ms, below: 320ms}}
    use: staccato-long
  - use: sustain
dynamics:
  controller: 1
  levels: {pp: 14, p: 34, mp: 54, mf: 72, f: 94, ff: 118}
examples:
  - notes: [{pitch: C3, held: 90ms}]
    expect: [staccato-short]
`;
    const diagnostics = read(yaml);
    expect(new Set(diagnostics.map(({ code }) => code))).toEqual(new Set(['aspect-left-behind']));
  });
});
