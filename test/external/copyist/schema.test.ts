import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterAll, describe, expect, it } from 'vitest';
import { meaningsByName } from '../../../src/map/meaning/index.js';
import { type CopyistDetails, writeMusicXml } from '../../../src/sheet/copyist/index.js';
import type { ScoreToNotate } from '../../../src/sheet/notate/index.js';
import { randomScore } from '../../sheet/notate/random.js';
import { lineOf, scoreOf, staffOf } from '../../sheet/notate/scores.js';

const folder = mkdtempSync(join(tmpdir(), 'keyslip-musicxml-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const schema = new URL('schema/', import.meta.url).pathname;

/** What libxml2 (xmllint, Debian) has against texts by the schema of the W3C; '' where it has nothing. */
function faults(texts: readonly (Uint8Array | string)[]): string {
  const files = texts.map((text, index) => {
    const file = join(folder, `${index}.musicxml`);
    writeFileSync(file, text);
    return file;
  });
  const env = { ...process.env, XML_CATALOG_FILES: join(schema, 'catalog.xml') };
  const options = ['--nonet', '--noout', '--schema', join(schema, 'musicxml.xsd'), ...files];
  const { stderr, status } = spawnSync('xmllint', options, { env, encoding: 'utf8' });
  if (status === 0) return '';
  return (
    stderr
      .split('\n')
      .filter((line) => !line.endsWith(' validates'))
      .join('\n') || `status ${status}`
  );
}

describe('the schema of MusicXML 4.0', () => {
  it('is there, and finds faults', () => {
    expect(execFileSync('xmllint', ['--version'], { encoding: 'utf8', stdio: 'pipe' })).toBeDefined();
    expect(faults(['<score-partwise version="4.0"><part-list/></score-partwise>'])).toContain(
      'Missing child element',
    );
  });

  it('accepts any music', () => {
    const scores = fc.sample(randomScore, { numRuns: 150, seed: 1 });
    expect(faults(scores.map((score) => writeMusicXml(score).bytes))).toBe('');
  });

  it('accepts every mark, alone and together, and any text', () => {
    const names = [...meaningsByName.keys()];
    const line = (count: number): ScoreToNotate => {
      const score = scoreOf([staffOf(lineOf(Array(count).fill(1), [67, 69]), { label: 'A & <b>\u0000' })]);
      return {
        ...score,
        chords: ['C', 'F♯m7♭5/E', 'no chord & <', 'D quartal'].map((text, at) => ({ tick: 240 * at, text })),
      };
    };
    const each: CopyistDetails = {
      playing: new Map(names.map((mark, index) => [`n${index}`, { marks: [mark] }])),
    };
    const all: CopyistDetails = {
      playing: new Map([['n0', { marks: names }]]),
      dynamics: new Map([['n0', 'sfzp']]),
      title: '\u0007<title>&',
    };
    // The names of MusicXML's dynamics, and one of nobody's.
    const loud =
      `p pp ppp pppp ppppp pppppp f ff fff ffff fffff ffffff mp mf sf sfp sfpp fp rf rfz sfz sffz fz n pf sfzp
      subito`.split(/\s+/u);
    const dynamics = new Map(loud.map((name, index) => [`n${index}`, name]));
    expect(faults([writeMusicXml(line(loud.length), { dynamics }).bytes])).toBe('');
    expect(faults([writeMusicXml(line(names.length), each).bytes, writeMusicXml(line(1), all).bytes])).toBe(
      '',
    );
  });
});
