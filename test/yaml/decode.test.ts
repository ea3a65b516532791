import { describe, expect, it } from 'vitest';
import { decodeText } from '../../src/yaml/decode.js';

const bytes = (...parts: readonly (string | readonly number[])[]) =>
  Uint8Array.from(
    parts.flatMap((part) => (typeof part === 'string' ? [...new TextEncoder().encode(part)] : part)),
  );
const decode = (...parts: readonly (string | readonly number[])[]) => decodeText(bytes(...parts), 'x.yaml');
const at = (line: number, column: number) => ({ code: 'yaml-syntax', place: { line, column } });

describe('the text of a file', () => {
  it('is UTF-8, with or without a byte order mark', () => {
    expect(decode([0xef, 0xbb, 0xbf], 'a: Hörner 🎺')).toBe('a: Hörner 🎺');
    expect(decode('')).toBe('');
  });

  it('has one kind of line break, whatever the file has (YAML 1.2.2, section 5.4)', () => {
    expect(decode('a\r\nb\rc\nd')).toBe('a\nb\nc\nd');
  });

  it('is refused where bytes are not UTF-8, at the first of them', () => {
    expect(decode('a: b\r\nc: ', [0xff], 'd')).toMatchObject(at(2, 4));
    expect(decode('ä', [0xc3])).toMatchObject(at(1, 2));
    expect(decode([0x80])).toMatchObject(at(1, 1));
    // A replacement character that is in the file itself is a character like others.
    expect(decode('\ufffd\n', [0xc0, 0x80])).toMatchObject(at(2, 1));
  });

  it('is refused in UTF-16, by its name', () => {
    expect(decode([0xff, 0xfe, 0x61, 0x00])).toMatchObject({ message: expect.stringContaining('UTF-16') });
    expect(decode([0xfe, 0xff, 0x00, 0x61])).toMatchObject({ message: expect.stringContaining('UTF-16') });
  });

  it('is refused with control characters in it (YAML 1.2.2, section 5.1, c-printable)', () => {
    expect(decode('a: "b\n\u0007"')).toMatchObject({
      ...at(2, 1),
      message: expect.stringContaining('U+0007'),
    });
    for (const character of ['\u0000', '\u001b', '\u007f', '\u009b', '\uffff'])
      expect(decode(character)).toMatchObject(at(1, 1));
    expect(decode('\t\u0085\u00a0\ue000\u{10ffff}')).toBe('\t\u0085\u00a0\ue000\u{10ffff}');
  });
});
