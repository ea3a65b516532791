import fc from 'fast-check';
import { parseDocument } from 'htmlparser2';
import { describe, expect, it } from 'vitest';
import { jsonMarkup, plain } from '../../../src/sheet/page/markup.js';

describe('plain', () => {
  it('is read back by an HTML parser as the text that it was, in an element and in an attribute', () => {
    fc.assert(
      // Printable ASCII: what the parser may change (line ends, controls) is escaped before.
      fc.property(fc.string({ unit: 'grapheme-ascii' }), (text) => {
        const [element] = parseDocument(`<p title="${plain(text)}">${plain(text)}</p>`).children;
        if (element?.type !== 'tag') throw new Error('no element');
        expect(element.attribs.title).toBe(text);
        expect(element.children.map((child) => ('data' in child ? child.data : '?')).join('')).toBe(text);
      }),
    );
  });

  it('spells what a page might obey', () => {
    expect(plain('<img onerror=x>')).toBe('&lt;img onerror=x&gt;');
    expect(plain('a\u202eb\u0007')).toBe('a\\u{202e}b\\u{7}');
  });
});

describe('jsonMarkup', () => {
  it('is JSON of the same data, and cannot end its element', () => {
    fc.assert(
      fc.property(fc.jsonValue(), fc.constantFrom('</script>', '<!--', ']]>', '\u2028'), (value, text) => {
        const markup = jsonMarkup([value, text]);
        expect(markup).not.toMatch(/[<>&\u2028\u2029]/u);
        expect(JSON.parse(markup)).toEqual(JSON.parse(JSON.stringify([value, text])));
      }),
    );
  });
});
