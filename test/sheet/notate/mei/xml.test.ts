import fc from 'fast-check';
import { DomUtils, parseDocument } from 'htmlparser2';
import { expect, it } from 'vitest';
import { element, xmlText } from '../../../../src/sheet/notate/mei/xml.js';
import { anyText } from '../../../support/any-text.js';

// XML 1.0, production 2: characters that a document may contain (from memory).
const isAllowed = (code: number) =>
  code === 9 ||
  code === 10 ||
  code === 13 ||
  (code >= 0x20 && code <= 0xd7ff) ||
  (code >= 0xe000 && code <= 0xfffd) ||
  code >= 0x10000;

it('any text comes back from an XML reader, without what XML does not allow', () => {
  fc.assert(
    fc.property(anyText(40), (text) => {
      const kept = [...text].filter((character) => isAllowed(character.codePointAt(0) ?? 0)).join('');
      const xml = element('label', { n: text }, `${xmlText(text)}.`);
      const [label] = parseDocument(xml, { xmlMode: true }).children;
      expect(label && DomUtils.textContent(label)).toBe(`${kept}.`);
      expect(label && 'attribs' in label && label.attribs.n).toBe(kept);
    }),
  );
});

it('halves of surrogate pairs and controls are dropped, tags are text', () => {
  expect(xmlText('a\u{0}\u{1b}\ud800b\udc00')).toBe('ab');
  expect(xmlText('<img src="x" onerror=\'y\'>&')).toBe("&lt;img src=&quot;x&quot; onerror='y'&gt;&amp;");
});

it('leaves out attributes without a value', () => {
  expect(element('note', { dur: 4, dots: undefined })).toBe('<note dur="4"/>');
});
