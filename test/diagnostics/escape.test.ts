import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { escapeText } from '../../src/diagnostics/escape.js';
import { anyText } from '../support/any-text.js';

describe('escaping texts', () => {
  it('spells what a terminal would obey, and leaves the rest', () => {
    expect(escapeText('a\u001b[31mb\u0007\r\n\tc\u009b')).toBe(
      'a\\u{1b}[31mb\\u{7}\\u{d}\\u{a}\\u{9}c\\u{9b}',
    );
    expect(escapeText('\u202eabc\u2066\u200b\u2028\ufeff')).toBe(
      '\\u{202e}abc\\u{2066}\\u{200b}\\u{2028}\\u{feff}',
    );
    expect(escapeText('Hörner 音楽 🎺')).toBe('Hörner 音楽 🎺');
    // Tags, a variation selector and fillers, which nobody sees.
    expect(escapeText('a\u{e0041}\u{e0100}\u3164\u034fb')).toBe('a\\u{e0041}\\u{e0100}\\u{3164}\\u{34f}b');
    expect(escapeText('\ud800x')).toBe('\\u{d800}x');
  });

  it('leaves no control, format or surrogate character of any text (Unicode general categories Cc, Cf, Cs)', () => {
    fc.assert(
      fc.property(anyText(50), (text) => {
        const left = escapeText(text);
        expect(left).not.toMatch(/\p{Cc}|\p{Cf}|\p{Cs}|\p{Zl}|\p{Zp}/u);
      }),
      { seed: 31 },
    );
  });
});
