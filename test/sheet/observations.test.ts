import { describe, expect, it } from 'vitest';
import { clockOf } from '../../src/midi/clock/index.js';
import type { Harmony, Music, SoundingNote } from '../../src/music/index.js';
import { observationsOn } from '../../src/sheet/observations.js';
import type { SheetPart } from '../../src/sheet/types.js';
import { songOf, trackOf } from '../support/song.js';
import { sheetPart } from './page/support.js';

const clock = clockOf(songOf([trackOf([])]), 1);
const bar = 1920;

/** Music without balance. */
function heard(
  parts: readonly SheetPart[],
  notes: readonly SoundingNote[],
  harmony: readonly Harmony[],
): Omit<Music, 'described'> {
  const names = parts.map(({ name }) => name);
  return { song: songOf([trackOf([])]), parts: [], names, notes, clock, harmony, sections: [] };
}

describe('observations', () => {
  it('name bars, parts and reasons, in order of bars', () => {
    const parts = [sheetPart({ name: 'Cello' }), sheetPart({ name: 'Viola' })];
    // C2 with E2 in bars 3 and 4: a third that lies low.
    const notes = [36, 40].map((pitch, part) => {
      return { tick: 2 * bar, endTick: 4 * bar, pitch, velocity: 80, part };
    });
    // A flute at 40 above a trumpet at 120, in bars 1 and 2.
    const song = songOf(
      [
        [84, 40],
        [60, 120],
      ].map(([pitch = 0, velocity = 0]) =>
        trackOf([0, bar].map((tick) => ({ tick, end: tick + 960, pitch, velocity }))),
      ),
    );
    const sections = (['woodwind', 'trumpet'] as const).map((kind, index) => ({
      part: { track: index + 1, trackName: kind, channel: 0 },
      name: kind,
      kind,
      players: 1,
    }));
    const at = { key: { tonic: 0, mode: 'major', name: 'C major', fifths: 0 }, chord: null } as const;
    const stretch = { tick: 2 * bar, endTick: 4 * bar, bar: 3, beat: 1, bass: 36, degree: null, altered: [] };
    const harmony = [{ ...at, ...stretch, pitchClasses: [0, 4] }];
    const found = observationsOn({ ...heard(parts, notes, harmony), song, sections }, parts);
    expect(found[0]).toEqual({
      kind: 'observation',
      text: expect.stringMatching(
        /^woodwind covered by trumpet \(.* dB stronger; −.* dB on the latter would mend it\)$/u,
      ),
      bar: 1,
      toBar: 2,
    });
    const bars = found.map((one) => one.bar ?? 0);
    expect(bars).toEqual([...bars].sort((a, b) => a - b));
  });

  it('tell a low third of three notes', () => {
    const parts = ['Basses', 'Cellos', 'Violas'].map((name) => sheetPart({ name }));
    const notes = [36, 40, 55].map((pitch, part) => ({ tick: 0, endTick: bar, pitch, velocity: 80, part }));
    const key = { tonic: 0, mode: 'major', name: 'C major', fifths: 0 } as const;
    const stretch = { tick: 0, endTick: bar, bar: 1, beat: 1, bass: 36, degree: null, altered: [] };
    const harmony = [{ ...stretch, key, chord: null, pitchClasses: [0, 4, 7] }];
    const texts = observationsOn(heard(parts, notes, harmony), parts).map(({ text }) => text);
    expect(texts.some((text) => text.includes('C2–E2 is a major third that lies low'))).toBe(true);
  });

  it('tell what an instrument does not have, at the bar where it begins', () => {
    // A double bass has no C5; the second bar has two.
    const parts = [sheetPart({ name: 'Ground', instrument: 'Double basses', range: { low: 0, high: 127 } })];
    const notes = [
      { tick: 0, pitch: 40 },
      { tick: bar, pitch: 72 },
      { tick: bar + 960, pitch: 72 },
    ].map((note) => ({ ...note, endTick: note.tick + 400, velocity: 80, part: 0 }));
    expect(observationsOn(heard(parts, notes, []), parts)[0]).toEqual({
      kind: 'observation',
      part: 0,
      text: '2 notes outside the range of a double bass, C1–C4: C5',
      tick: bar,
      bar: 2,
    });
  });
});
