import { Chord as Dictionary, Interval, Note } from 'tonal';
import type { Clock } from '../midi/index.js';
import type { ArrangeRemark, Chord } from './types.js';

/** A text of chord symbols, read. */
export interface SymbolsRead {
  readonly chords: readonly Chord[];
  readonly remarks: readonly ArrangeRemark[];
}

/** A symbol in its bar (from 0). */
interface Placed {
  readonly bar: number;
  readonly text: string;
  readonly line: number;
  readonly column: number;
}

/**
 * Reads chord symbols in bars: `| Dm | Gm/B♭ C7 | F |`. The symbols of a bar share it evenly; `.` holds the chord before
 * (`| C . . G |`: G on the last of four), `%` repeats the bar before. Without any bar line, each symbol is a bar. The
 * first bar is the music's first; a bar of `.` before all chords leaves a pickup free. Sharps and flats as ♯ ♭ or # b.
 * Symbols are those of the dictionary in use (tonal), and as they are written above this project's staves: Cm7, C6/9,
 * C7♭9, Cm(maj7), Csus4, C°, Cø, CΔ.
 *
 * Each chord is laid out plainly, to be voiced later: its bass between E2 and E♭3, its tones once each from G3 upward,
 * so that nothing lies low and close, and voices move little.
 *
 * All faults are told at once; with any there are no chords.
 */
export function chordsOfSymbols(text: string, clock: Pick<Clock, 'barStart'>): SymbolsRead {
  if (clock.barStart(1) === null) {
    const hint = 'give the chords as MIDI, or a rhythm that counts beats';
    const message = 'chord symbols stand in bars, and the music has none';
    return { chords: [], remarks: [{ code: 'no-bars', message, hint }] };
  }
  const bars = barsOf(text);
  const remarks: ArrangeRemark[] = [];
  const chords: Chord[] = [];
  bars.forEach((symbols, bar) => {
    const [from, to] = [clock.barStart(bar + 1) ?? 0, clock.barStart(bar + 2) ?? 0];
    symbols.forEach((placed, index) => {
      if (placed.text === '.') return;
      const tones = tonesOf(placed.text);
      if (!tones) remarks.push(unknown(placed));
      else
        chords.push({ tick: from + Math.round((index * (to - from)) / symbols.length), endTick: 0, tones });
    });
  });
  if (remarks.length > 0) return { chords: [], remarks };
  if (chords.length === 0) return { chords: [], remarks: [noChords()] };
  const end = clock.barStart(bars.length + 1) ?? 0;
  return {
    chords: chords.map((chord, index) => ({ ...chord, endTick: chords[index + 1]?.tick ?? end })),
    remarks: [],
  };
}

/** Symbols by bar, repeats written out. */
function barsOf(text: string): readonly (readonly Placed[])[] {
  const hasBars = text.includes('|');
  const bars: Placed[][] = [];
  let open: Placed[] = [];
  const close = () => {
    const [only] = open;
    const before = bars.at(-1);
    if (open.length === 1 && only?.text === '%' && before) bars.push(before);
    else if (open.length > 0) bars.push(open);
    open = [];
  };
  text.split(/\r\n|\r|\n/u).forEach((content, line) => {
    for (const found of content.matchAll(/[|:‖]+|[^\s|:‖]+/gu)) {
      const [word] = found;
      if (/^[|:‖]/u.test(word)) close();
      else open.push({ bar: bars.length, text: word, line: line + 1, column: found.index + 1 });
      if (!hasBars) close();
    }
  });
  close();
  return bars;
}

/** Spellings that the dictionary does not have, and its own. */
const spellings: readonly (readonly [RegExp, string])[] = [
  [/♭/gu, 'b'],
  [/♯/gu, '#'],
  [/^([A-G][#b]*)m\(maj(\d*)\)/u, '$1mM$2'],
  [/\((add\d+|[#b]\d+|sus\d*)\)/gu, '$1'],
  [/^([A-G][#b]*)m6\/9/u, '$1m69'],
  [/^([A-G][#b]*)min/u, '$1m'],
];

function tonesOf(symbol: string): Chord['tones'] | undefined {
  if (symbol.length > 32 || !/^[A-G]/u.test(symbol)) return undefined;
  const plain = spellings.reduce((word, [from, to]) => word.replace(from, to), symbol);
  const { empty, tonic, bass, type, aliases, symbol: read } = Dictionary.get(plain);
  if (empty || tonic === null || (type === '' && aliases.length === 0 && read === '')) return undefined;
  const root = Note.chroma(tonic);
  const ground = bass === '' ? root : Note.chroma(bass);
  // The dictionary turns the intervals of an inversion round; its plain chord has them from the root.
  const upright = Dictionary.get(bass === '' ? plain : plain.slice(0, plain.lastIndexOf('/')));
  const classes = new Set(upright.intervals.map((name) => mod(root + Interval.semitones(name))));
  const upper = [...classes].map((pitchClass) => lowestUpper + mod(pitchClass - lowestUpper));
  const low = lowestBass + mod(ground - lowestBass);
  return [low, ...upper.sort((a, b) => a - b)].map((pitch) => ({ pitch, part: 0 }));
}

/** G3: close tones are clear from here on. */
const lowestUpper = 55;
/** E2. */
const lowestBass = 40;

function mod(value: number): number {
  return ((value % 12) + 12) % 12;
}

function unknown({ text, line, column }: Placed): ArrangeRemark {
  return {
    code: 'unknown-chord',
    place: { kind: 'text', line, column },
    message: `"${text}" is not a chord symbol`,
    hint: 'a chord begins with its root, C to B, and its kind: Dm, B♭maj7, F♯7, G/B; bars stand between |',
  };
}

function noChords(): ArrangeRemark {
  const hint = 'write them in bars: | Dm | Gm/B♭ C7 | F |';
  return { code: 'no-chords', message: 'there are no chords', hint };
}
