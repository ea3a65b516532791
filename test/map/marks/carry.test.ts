import { describe, expect, it } from 'vitest';
import { analyse } from '../../../src/compile/analyse/index.js';
import { mapOf } from '../../support/map.js';
import { songOf, type Timed, textAt, trackOf } from '../../support/song.js';

const map = mapOf(`
articulations:
  short: {switch: {note: C0}}
  long: {switch: {note: D0}}
rules:
  - use: long
`);
const notes = [0, 500, 1000, 1500].map((tick, index) => ({ tick, end: tick + 400, pitch: 60 + index }));
const part = { track: 1, trackName: '', channel: 0 };

/** The marks of each of the four notes. */
function marksOf(...texts: readonly Timed[]): readonly (readonly string[])[] {
  const { line } = analyse(songOf([trackOf(notes, texts)]), part, map);
  return line.notes.map(({ marks }) => [...marks]);
}

describe('marks in the music', () => {
  it('hold from their place until [auto]', () => {
    expect(marksOf(textAt(500, '[accent]'), textAt(1500, '[auto]'))).toEqual([
      [],
      ['accent'],
      ['accent'],
      [],
    ]);
  });

  it('with an exclamation mark, hold for the onset at or next after them', () => {
    expect(marksOf(textAt(500, '[accent!]'))).toEqual([[], ['accent'], [], []]);
    // A note that was played up to 60 ms before it is at the mark.
    expect(marksOf(textAt(557, '[accent!]'))).toEqual([[], ['accent'], [], []]);
    expect(marksOf(textAt(559, '[accent!]'))).toEqual([[], [], ['accent'], []]);
  });

  it('may be texts, lyrics, markers and cue points of the part', () => {
    for (const type of ['text', 'lyrics', 'marker', 'cuePoint'] as const)
      expect(marksOf(textAt(1500, '[trem.]', type))[3]).toEqual(['tremolo']);
  });

  it('add up, but take the place of their own family', () => {
    expect(marksOf(textAt(0, '[pizz.]'), textAt(500, '[con sord.]'), textAt(1000, '[arco]'))).toEqual([
      ['pizz.'],
      ['pizz.', 'con sord.'],
      ['con sord.', 'arco'],
      ['con sord.', 'arco'],
    ]);
    expect(marksOf(textAt(0, '[stacc.]'), textAt(500, '[ten.!]'))).toEqual([
      ['staccato'],
      ['tenuto'],
      ['staccato'],
      ['staccato'],
    ]);
  });

  it("may be the map's own articulations, of which the latest holds", () => {
    expect(marksOf(textAt(0, '[short]'), textAt(1000, '[long]'))).toEqual([
      ['short'],
      ['short'],
      ['long'],
      ['long'],
    ]);
  });

  it('are read from markers of the first track too, but from its texts not', () => {
    const conductor = trackOf([], [textAt(500, '[accent]', 'marker'), textAt(500, '[stress]', 'text')]);
    const song = songOf([conductor, trackOf(notes)]);
    const { line } = analyse(song, { ...part, track: 2 }, map);
    expect(line.notes.map(({ marks }) => [...marks])).toEqual([[], ['accent'], ['accent'], ['accent']]);
  });

  it('in format 2 belong to their own track only', () => {
    const song = songOf([trackOf([], [textAt(0, '[accent]', 'marker')]), trackOf(notes)], { format: 2 });
    const { line } = analyse(song, { ...part, track: 2 }, map);
    expect(line.notes.every(({ marks }) => marks.size === 0)).toBe(true);
  });

  it('are reported where they are unknown, with the nearest name (mark-in-music)', () => {
    const song = songOf([trackOf(notes, [textAt(500, '[stacatto]'), textAt(1000, 'la la [la]')], 'Horns')]);
    const { diagnostics } = analyse(song, part, map);
    expect(diagnostics).toEqual([
      expect.objectContaining({
        code: 'mark-in-music',
        severity: 'warning',
        place: expect.objectContaining({ track: 1, trackName: 'Horns', bar: 1, beat: 2, tick: 500 }),
        hint: expect.stringContaining('[staccato]'),
      }),
    ]);
  });
});
