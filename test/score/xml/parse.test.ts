import { describe, expect, it } from 'vitest';
import { scoreToMidi } from '../../../src/score/index.js';
import { codesOf, encode, notes, partwise } from '../written.js';

const good = partwise([notes('C4/4 D4/4 E4/8')]);

function diagnose(text: string, limits = {}) {
  return scoreToMidi(encode(text), 'test.musicxml', {}, limits).diagnostics;
}

describe('XML of scores', () => {
  it('is read in UTF-8 and UTF-16, with a byte order mark or without (XML 1.0, appendix F)', () => {
    const utf16 = (text: string, mark: boolean, swap: boolean) => {
      const buffer = Buffer.from(`${mark ? '\ufeff' : ''}${text.replace('UTF-8', 'UTF-16')}`, 'utf16le');
      return new Uint8Array(swap ? buffer.swap16() : buffer);
    };
    const expected = scoreToMidi(encode(good), 'a').value;
    expect(expected).toBeDefined();
    for (const mark of [true, false])
      for (const swap of [true, false])
        expect(scoreToMidi(utf16(good, mark, swap), 'a').value).toEqual(expected);
    expect(scoreToMidi(encode(`\ufeff${good}`), 'a').value).toEqual(expected);
  });

  it('is refused in other encodings, and where bytes are no text', () => {
    expect(codesOf(good.replace('UTF-8', 'EBCDIC-X'))).toEqual(['score-encoding']);
    expect(codesOf(Uint8Array.from([...encode(good), 0xff]))).toEqual(['score-encoding']);
  });

  it('may name the public document type, which is not looked up', () => {
    const type =
      '<!DOCTYPE score-partwise PUBLIC "-//Recordare//DTD MusicXML 4.0 Partwise//EN" "http://192.0.2.1/partwise.dtd">';
    expect(codesOf(good.replace('<score-partwise', `${type}<score-partwise`))).toEqual([]);
  });

  it('may not declare entities: they unfold without end, or ask for files', () => {
    const bomb = ['a', 'b', 'c']
      .map((name, index) => `<!ENTITY ${name} "${index === 0 ? 'ha' : '&a;&a;&b;'}">`)
      .join('');
    const [found, ...others] = diagnose(
      good.replace('<score-partwise', `<!DOCTYPE score-partwise [${bomb}]>\n<score-partwise`),
    );
    expect(others).toEqual([]);
    expect(found).toMatchObject({ code: 'xml-entity', severity: 'error', place: { kind: 'text', line: 2 } });
    expect(found?.hint).toBeDefined();
    const file = '<!DOCTYPE score-partwise [<!ENTITY x SYSTEM "file:///etc/passwd">]>';
    expect(codesOf(good.replace('<score-partwise', `${file}<score-partwise`))).toEqual(['xml-entity']);
    expect(codesOf(good.replace('Horn', '&unknown;'))).toEqual(['xml-syntax']);
  });

  it('tells every mistake of syntax with its line and column', () => {
    const found = diagnose('<score-partwise>\n  <part id=P1>\n  </port>\n</score-partwise>');
    expect(found.length).toBeGreaterThan(1);
    expect(found.map(({ code }) => code)).toEqual(found.map(() => 'xml-syntax'));
    expect(found[0]?.place).toMatchObject({ kind: 'text', line: 2, column: 12 });
    expect(found.map(({ message }) => message).join()).not.toMatch(/\d+:\d+:/u);
  });

  it('is refused where it is cut off, too deep, too long or no score', () => {
    expect(codesOf(good.slice(0, -30))).toContain('xml-syntax');
    expect(diagnose('<a>'.repeat(300))[0]).toMatchObject({ code: 'score-too-large', place: { column: 601 } });
    expect(diagnose(good, { maxElements: 5 }).map(({ code }) => code)).toEqual(['score-too-large']);
    expect(diagnose(good, { maxBytes: 100 }).map(({ code }) => code)).toEqual(['score-too-large']);
    expect(codesOf('<html/>')).toEqual(['score-kind']);
    expect(codesOf('')).toEqual(['xml-syntax']);
  });

  it('counts columns from 1 at the beginning of the element', () => {
    const found = diagnose(good.replace('<step>C</step>', '<step>H</step>'));
    const line = good.split('\n')[1] ?? '';
    expect(found).toMatchObject([
      { code: 'score-value', place: { line: 2, column: line.indexOf('<pitch>') + 1 } },
    ]);
  });
});
