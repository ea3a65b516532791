import { describe, expect, it } from 'vitest';
import { type Diagnostic, diagnostic, formatDiagnostics } from '../../src/diagnostics/index.js';

const outOfRange = (pitch: string, bar: number, track = 2, often = 'once'): Diagnostic =>
  diagnostic(
    'note-out-of-range',
    { kind: 'music', file: 'take.mid', track, trackName: 'Flutes', bar, beat: 1, tick: bar * 1920 },
    `the note ${pitch} (${often}) lies outside the range C4 to C7`,
    'it is kept, but the library may stay silent on it',
  );
const oldWord = (line: number, file = 'horns.yaml'): Diagnostic =>
  diagnostic('old-word', { kind: 'text', file, line, column: 3 }, '"group" is called aspect now');

describe('diagnostics for people', () => {
  it('tell notes of one track that are alike once, with their number, pitches and bars', () => {
    const all = ['D7', 'C8', 'E7', 'A#7'].map((pitch, index) => outOfRange(pitch, 3 + 12 * index));
    const [text, ...more] = formatDiagnostics(all);
    expect(more).toEqual([]);
    expect(text).toBe(
      'take.mid, track 2 "Flutes", bar 3 beat 1 (tick 5760): warning [note-out-of-range]: ' +
        '4 notes, D7–C8, bars 3–39; the first: the note D7 (once) lies outside the range C4 to C7\n' +
        '    it is kept, but the library may stay silent on it',
    );
  });

  it('count the notes of each, whose last bar is not known', () => {
    const all = [
      outOfRange('D7', 3, 2, '5 times, here first'),
      outOfRange('B3', 9, 2, '2 times, here first'),
      outOfRange('E7', 20),
    ];
    expect(formatDiagnostics(all)[0]).toContain('8 notes, B3–E7, from bar 3 on; the first');
  });

  it('tell words of one file once, with their lines', () => {
    const all = [oldWord(12), oldWord(40), oldWord(7, 'b.yaml'), oldWord(30), oldWord(8, 'b.yaml')];
    const told = formatDiagnostics(all);
    expect(told).toHaveLength(3);
    expect(told[0]).toBe(
      'horns.yaml:12:3: warning [old-word]: 3 times, lines 12–40; the first: "group" is called aspect now',
    );
  });

  it('tell each of two, of other tracks, and each error in a text', () => {
    const place = { kind: 'text', file: 'a.yaml', column: 1 } as const;
    const errors = [1, 2, 3].map((line) => diagnostic('unknown-key', { ...place, line }, 'what is this'));
    const all = [outOfRange('D7', 3), outOfRange('E7', 4), outOfRange('F7', 5, 3), ...errors];
    expect(formatDiagnostics(all)).toHaveLength(all.length);
  });
});
