import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { partsOf } from '../../src/compile/analyse/index.js';
import { compileParts } from '../../src/compile/index.js';
import { readMidi } from '../../src/midi/read/index.js';
import { sheetOf } from '../../src/sheet/collect.js';
import { notate } from '../../src/sheet/notate/index.js';
import { scoreOf } from '../../src/sheet/score.js';
import { readWhole } from '../support/map.js';

const map = readWhole(readFileSync(new URL('tallow-horns.yaml', import.meta.url), 'utf8'));

/** The notation of a file, as MEI. */
function notated(file: string): string {
  const { value: song } = readMidi(readFileSync(new URL(`sheet/${file}`, import.meta.url)), file);
  if (!song) throw new Error(`${file} cannot be read`);
  const { parts, tracks, diagnostics } = compileParts(
    song,
    song.tracks.flatMap(partsOf).map((part) => ({ part, map })),
  );
  const jobs = parts.map((compiled) => ({ compiled, name: compiled.part.trackName }));
  return notate(scoreOf(sheetOf({ title: file, song, tracks, jobs, diagnostics }))).mei;
}

describe('on the sheet', () => {
  it('repeat.mid: equal repeated notes are written alike', () => {
    const notes = notated('repeat.mid').match(/<note\b[^>]*>/gu) ?? [];
    const values = notes.map((note) => [
      /\bdur="(\d+)"/u.exec(note)?.[1],
      /\bdots="(\d)"/u.exec(note)?.[1] ?? '0',
    ]);
    expect(values).toEqual(Array.from({ length: 16 }, () => ['8', '0']));
  });

  it('held299000.mid: one note held over ten thousands of bars is notated as what it is', () => {
    const mei = notated('held299000.mid');
    expect(mei.length).toBeLessThan(10_000);
    expect(mei).toContain('<note');
  });
});
