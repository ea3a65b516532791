import teoria from 'teoria';
import { describe, expect, it } from 'vitest';
import { harmonyOf } from '../../../src/music/harmony/index.js';
import { chordsOf, clockFor } from './support.js';

const names = ['C', 'D♭', 'D', 'E♭', 'E', 'F', 'F♯', 'G', 'A♭', 'A', 'B♭', 'B'];
/** Our symbol, and teoria's. */
const qualities: readonly (readonly [ours: string, theirs: string])[] = [
  ['', ''],
  ['m', 'm'],
  ['dim', 'dim'],
  ['aug', 'aug'],
  ['7', '7'],
  ['m7', 'm7'],
  ['maj7', 'maj7'],
  ['m(maj7)', 'mMaj7'],
  ['m7♭5', 'm7b5'],
  ['dim7', 'dim7'],
  ['sus4', 'sus4'],
  ['sus2', 'sus2'],
  ['7sus4', '7sus4'],
  ['6', '6'],
  ['m6', 'm6'],
  ['6/9', '6/9'],
  ['add9', 'add9'],
  ['9', '9'],
  ['maj9', 'maj9'],
  ['m9', 'm9'],
  ['7♭9', '7b9'],
  ['7♯9', '7#9'],
  ['7♯5', '7#5'],
  ['5', '5'],
];

/** Sets of pitch classes that two names fit: the other name, and its root above the first. Handbooks agree on all. */
const twins: Readonly<Record<string, readonly (readonly [symbol: string, above: number])[]>> = {
  '6': [['m7', 9]],
  m7: [['6', 3]],
  m6: [['m7♭5', 9]],
  'm7♭5': [['m6', 3]],
  sus4: [['sus2', 5]],
  sus2: [['sus4', 7]],
  aug: [
    ['aug', 4],
    ['aug', 8],
  ],
  dim7: [
    ['dim7', 3],
    ['dim7', 6],
    ['dim7', 9],
  ],
  '6/9': [['9sus4', 2]],
};

/** One spelling for each note: that of the list above. */
const respelled: Readonly<Record<string, string>> = {
  'C♯': 'D♭',
  'D♯': 'E♭',
  'E♯': 'F',
  'F♭': 'E',
  'G♭': 'F♯',
  'G♯': 'A♭',
  'A♯': 'B♭',
  'B♯': 'C',
  'C♭': 'B',
};
const plain = (name: string) => name.replace(/^[A-G][♯♭]/u, (root) => respelled[root] ?? root);

function nameOf(pitches: readonly number[]): string {
  const [found] = harmonyOf(chordsOf([pitches]), clockFor(), { per: 'found' });
  return plain(found?.chord?.name ?? '');
}

/** Without what stands behind a slash, but for the one of "6/9". */
function aboveBass(name: string): string {
  return name.replace(/\/[A-G][♯♭]?$/u, '');
}

describe('names of chords', () => {
  // The intervals of each quality are those of teoria 2.5.
  const tonesOf = (symbol: string) =>
    teoria
      .chord(`C${symbol}`)
      .notes()
      .map((note) => note.midi() - 60);

  it.each(qualities)('C%s as teoria has it (%s), over all roots, in root position', (ours, theirs) => {
    names.forEach((root, above) => {
      const pitches = tonesOf(theirs).map((tone) => 48 + above + tone);
      expect(nameOf(pitches)).toBe(`${root}${ours}`);
    });
  });

  it.each(qualities)(
    'C%s as teoria has it (%s), over all roots, in each inversion below the ninth',
    (ours, theirs) => {
      names.forEach((_, above) => {
        const tones = tonesOf(theirs);
        const fits = [[ours, 0] as const, ...(twins[ours] ?? [])].map(
          ([symbol, by]) => `${names[(above + by) % 12]}${symbol}`,
        );
        tones.slice(1).forEach((tone, index) => {
          if (tone > 12) return;
          const bass = 36 + above + (tone % 12);
          const [found] = harmonyOf(chordsOf([[bass, ...tones.map((one) => 60 + above + one)]]), clockFor(), {
            per: 'found',
          });
          const name = plain(found?.chord?.name ?? '');
          expect(fits).toContain(aboveBass(name));
          expect(found?.bass).toBe(bass);
          if (aboveBass(name) === fits[0]) expect(found?.chord?.inversion).toBe(index + 1);
          if (found?.chord && bass % 12 !== found.chord.root) expect(name).toMatch(/\/[A-G][♯♭]?$/u);
        });
      });
    },
  );

  // Voicings of the trade (common practice, no source).
  it.each([
    ['C quartal', [48, 53, 58]],
    ['C quartal', [48, 53, 58, 63]],
    ['C', [48, 52]],
    ['Cm', [48, 51]],
    ['C7', [48, 52, 58]],
    ['C/D', [38, 60, 64, 67]],
    ['B♭/C', [36, 58, 62, 65]],
  ])('%s', (name, pitches) => {
    expect(nameOf(pitches)).toBe(name);
  });

  it('are not given to one pitch class, or to a cluster', () => {
    for (const pitches of [[60], [48, 60, 72], [60, 61, 62, 63, 64, 65]]) {
      const [found] = harmonyOf(chordsOf([pitches]), clockFor(), { per: 'found' });
      expect(found?.chord).toBeNull();
      expect(found?.degree).toBeNull();
    }
  });
});
