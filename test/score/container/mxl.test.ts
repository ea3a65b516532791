import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { scoreToMidi } from '../../../src/score/index.js';
import { codesOf, encode, notes, partwise } from '../written.js';
import { archive, container, type Member } from './archive.js';

const text = partwise([notes('C4/4 D4/4 E4/8')]);
const score: Member = { path: 'score.musicxml', data: encode(text) };
const list = container('score.musicxml');

describe('compressed scores', () => {
  it('sound as the score in them, deflated or stored', () => {
    const plain = scoreToMidi(encode(text), 'a').value;
    for (const stored of [true, false])
      expect(scoreToMidi(archive([list, { ...score, stored }]), 'a.mxl').value).toEqual(plain);
  });

  it('are read as another program wrote them (the test suite, 90a)', () => {
    const bytes = new Uint8Array(
      readFileSync(new URL('../files/90a-Compressed-MusicXML.mxl', import.meta.url)),
    );
    expect(scoreToMidi(bytes, '90a.mxl')).toMatchObject({ diagnostics: [], value: expect.any(Uint8Array) });
  });

  it('may not unpack to more than they say or than the limit', () => {
    const big = new Uint8Array(30_000_000).fill(32);
    expect(codesOf(archive([list, { ...score, data: big, claimed: { size: 1000 } }]))).toEqual([
      'zip-damaged',
    ]);
    const limits = { maxBytes: 1_000_000 };
    const { diagnostics } = scoreToMidi(archive([list, { ...score, data: big }]), 'a.mxl', {}, limits);
    expect(diagnostics.map(({ code }) => code)).toEqual(['score-too-large']);
  });

  it('may not hold paths that lead out of them, nor name one', () => {
    for (const path of [
      '../score.musicxml',
      '/score.musicxml',
      'C:\\score.xml',
      'a/../../b',
      'a\\b',
      'a\u0007b',
    ])
      expect(codesOf(archive([list, score, { ...score, path }]))).toEqual(['zip-path']);
    for (const path of ['../score.musicxml', '/etc/passwd', 'file:///etc/passwd/..'])
      expect(codesOf(archive([container(path), score]))).toEqual(['zip-path']);
  });

  it('say what is wrong with them', () => {
    expect(codesOf(archive([score]))).toEqual(['zip-content']);
    expect(codesOf(archive([container('other.xml'), score]))).toEqual(['zip-content']);
    expect(codesOf(archive([{ ...list, data: encode('<container/>') }, score]))).toEqual(['zip-content']);
    expect(codesOf(archive([{ ...list, data: encode('<container') }, score]))).toContain('xml-syntax');
    expect(codesOf(archive([list, { ...score, claimed: { crc: 1 } }]))).toEqual(['zip-damaged']);
    expect(codesOf(archive([list, { ...score, claimed: { flags: 1 } }]))).toEqual(['zip-damaged']);
    expect(codesOf(archive([list, { ...score, claimed: { method: 12 } }]))).toEqual(['zip-damaged']);
    const whole = archive([list, score]);
    expect(codesOf(whole.subarray(0, whole.length - 10))).toEqual(['zip-damaged']);
  });

  it('name the file inside for faults of the score', () => {
    const wrong = { ...score, data: encode(text.replace('<step>C</step>', '')) };
    const { diagnostics } = scoreToMidi(archive([list, wrong]), 'a.mxl');
    expect(diagnostics[0]?.place).toMatchObject({ file: 'a.mxl/score.musicxml', line: 2 });
  });

  it('never throw, whatever byte is changed', () => {
    const whole = archive([list, score]);
    for (let index = 0; index < whole.length; index++) {
      const bytes = whole.slice();
      bytes[index] = (bytes[index] ?? 0) ^ 0xff;
      expect(() => scoreToMidi(bytes, 'a.mxl')).not.toThrow();
    }
  });
});
