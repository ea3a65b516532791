import { describe, expect, it } from 'vitest';
import { measureParts, partText } from '../../../src/music/inspections/mechanical.js';
import { controllerAt, songOf, type TestNote, trackOf } from '../../support/song.js';

const part = { track: 1, trackName: 'Strings \u001b[2J', channel: 0 };
const stepped = (bars: number): readonly TestNote[] =>
  Array.from({ length: bars * 4 }, (_, beat) => beat).flatMap((beat) =>
    [60, 64, 67]
      .slice(0, beat % 2 === 0 ? 3 : 1)
      .map((pitch) => ({ tick: beat * 480, end: beat * 480 + 400, pitch, velocity: 90 })),
  );
/** Strays of up to 13 ticks, lengths and velocities that vary, no two chord notes at once. */
const played = (bars: number): readonly TestNote[] =>
  stepped(bars).map((note, index) => {
    const tick = note.tick + 30 + ((index * 7) % 13) * 2;
    return {
      tick,
      end: tick + 200 + ((index * 37) % 101),
      pitch: note.pitch,
      velocity: 60 + ((index * 11) % 40),
    };
  });

function measured(notes: readonly TestNote[], dynamics: boolean) {
  const others = dynamics
    ? Array.from({ length: 40 }, (_, beat) => controllerAt(beat * 480, 1, 40 + beat))
    : [];
  const [found] = measureParts(songOf([trackOf(notes, others)]), [part]);
  if (!found) throw new Error('nothing found');
  return found;
}

describe('what sounds mechanical', () => {
  it('is all of it in a line that was stepped in', () => {
    const found = measured(stepped(10), false);
    expect(found.measures.map(({ measure, bars }) => [measure, bars])).toEqual([
      ['exact-onsets', [{ from: 1, to: 10 }]],
      ['unspread-chords', [{ from: 1, to: 10 }]],
      ['same-velocities', [{ from: 1, to: 10 }]],
      ['same-lengths', [{ from: 1, to: 10 }]],
      ['no-dynamics', [{ from: 1, to: 10 }]],
    ]);
    const text = partText(found);
    for (const option of ['--loosen', '--pull', '--roll', '--joins']) expect(text).toContain(option);
    expect(text).toContain('heard as mechanical in bars 1–10');
    expect(text).not.toContain('\u001b');
  });

  it('is nothing in one that was played, with its dynamics', () => {
    const found = measured(played(10), true);
    expect(found.measures.map(({ bars }) => bars)).toEqual([[], [], [], [], []]);
    expect(partText(found)).not.toContain('--');
  });
});

describe('a wheel', () => {
  it('is asked of nobody who strikes or plucks', () => {
    const asked = (name: string, channel = 0) => {
      const song = songOf([
        trackOf(
          stepped(8).map((note) => ({ ...note, channel })),
          [],
          name,
        ),
      ]);
      return measureParts(song, [{ track: 1, trackName: name, channel }])[0]?.measures.some(
        ({ measure }) => measure === 'no-dynamics',
      );
    };
    for (const name of ['Snare Drum', 'Timpani', 'Harp', 'Piano', 'Glockenspiel', 'Pauken'])
      expect([name, asked(name)]).toEqual([name, false]);
    // channel 10 is percussion in General MIDI
    expect(asked('Battery', 9)).toBe(false);
    for (const name of ['Horns', 'Violins 1', 'Flute']) expect([name, asked(name)]).toEqual([name, true]);
  });
});
