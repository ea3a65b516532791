import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { clockOf, lastTick, partsOf, readMidi } from '../../../src/midi/index.js';
import { writeMusicXml } from '../../../src/sheet/copyist/index.js';
import type { ScoreToNotate } from '../../../src/sheet/notate/index.js';
import { notesOn } from '../../support/events.js';
import { realFiles } from '../real.js';

const folder = mkdtempSync(join(tmpdir(), 'keyslip-musicxml-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const schema = new URL('schema/', import.meta.url).pathname;

function scoreOfFile(name: string, bytes: Uint8Array): ScoreToNotate {
  const song = readMidi(bytes, name).value;
  if (!song) throw new Error(`${name} is not read`);
  const staves = song.tracks.flatMap((track) =>
    partsOf(track).map((part) => ({
      label: part.trackName,
      percussion: part.channel === 9,
      words: [],
      notes: [...notesOn(track, part.channel)]
        .sort((a, b) => a.tick - b.tick)
        .map(({ tick, endTick, pitch }, index) => {
          return { id: `t${part.track}c${part.channel}n${index}`, tick, endTick, pitch };
        }),
    })),
  );
  const endTick = song.tracks.reduce((end, { columns }) => Math.max(end, lastTick(columns)), 0);
  return { clock: clockOf(song, 1), staves, keys: [], chords: [], endTick };
}

describe('real files as MusicXML', () => {
  it('are valid by the schema of the W3C, with every note in them', () => {
    const files = realFiles().map(({ name, bytes }) => {
      const score = scoreOfFile(name, bytes);
      const { bytes: xml } = writeMusicXml(score, { title: name });
      const heads = new TextDecoder().decode(xml).split('<note id="').length - 1;
      expect(heads).toBeGreaterThanOrEqual(score.staves.reduce((sum, { notes }) => sum + notes.length, 0));
      const file = join(folder, `${name}.musicxml`);
      writeFileSync(file, xml);
      return file;
    });
    expect(files.length).toBeGreaterThan(20);
    const env = { ...process.env, XML_CATALOG_FILES: join(schema, 'catalog.xml') };
    const options = ['--nonet', '--noout', '--schema', join(schema, 'musicxml.xsd'), ...files];
    const { stderr, status } = spawnSync('xmllint', options, { env, encoding: 'utf8', maxBuffer: 1 << 28 });
    expect(
      stderr
        .split('\n')
        .filter((line) => line !== '' && !line.endsWith(' validates'))
        .slice(0, 20),
    ).toEqual([]);
    expect(status).toBe(0);
  });
});
