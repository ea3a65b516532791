import { isSameMeter, type Measure, QUARTER } from './measures.js';
import type { ChordName, WrittenStaff } from './written.js';

// In the engraver's units. Own figures: a least-squares fit of widths that Verovio gives to 160 bars of random music
// when nothing is justified (standard deviation 30).
const BAR = 65;
const QUARTER_SPACE = 60;
const HEAD = 28;
const LETTER = 19;
const CHANGED_METER = 70;
const ACCIDENTAL_OF_KEY = 24;
const EMPTY_BAR = 120;
const MANY_BARS = 240;

/** An estimate of what each bar needs across, in the engraver's units: by the values written in it, or by its texts. */
export function barWidths(
  staves: readonly WrittenStaff[],
  measures: readonly Measure[],
  chords: readonly (readonly ChordName[])[],
): readonly number[] {
  return measures.map((measure, index) => {
    const before = measures[index - 1]?.meter;
    const changes = before !== undefined && !isSameMeter(before, measure.meter);
    const named = (chords[index] ?? []).reduce((letters, { text }) => letters + spaced(text), 0);
    const letters = staves.reduce((most, staff) => Math.max(most, lettersIn(staff, index)), named);
    const music = musicWidth(staves, measure, index);
    return Math.max(music, LETTER * letters) + (changes ? CHANGED_METER : 0);
  });
}

/** What a system has for its bars, beside the parts' names, clefs and key signatures. */
export function systemWidth(staves: readonly WrittenStaff[], fifths: readonly number[]): number {
  const name = staves.reduce((most, { label }) => Math.max(most, label.length), 0);
  const signs = fifths.reduce((most, sharps) => Math.max(most, Math.abs(sharps)), 0);
  return Math.max(LEAST, PAGE - CLEF_AND_METER - LETTER * name - ACCIDENTAL_OF_KEY * signs);
}

/** The page, less what is kept free so that the music does not stand too close. */
const PAGE = 2160;
const CLEF_AND_METER = 150;
/** However long a part's name is. */
const LEAST = 800;

/** The space of a value grows with the square root of its length. */
function musicWidth(staves: readonly WrittenStaff[], { start, end, bars }: Measure, index: number): number {
  const places = new Set<number>();
  for (const staff of staves)
    for (const layer of staff.bars[index] ?? []) for (const piece of layer) places.add(piece.start);
  if (places.size === 0) return bars > 1 ? MANY_BARS : EMPTY_BAR;
  places.add(start);
  const inOrder = [...places].sort((a, b) => a - b);
  let width = BAR;
  inOrder.forEach((place, at) => {
    const quarters = ((inOrder[at + 1] ?? end) - place) / QUARTER;
    width += Math.max(HEAD, QUARTER_SPACE * Math.sqrt(quarters));
  });
  return width;
}

/** Letters of the words that stand above a staff in a bar. */
function lettersIn({ bars, words }: WrittenStaff, index: number): number {
  if (words.size === 0) return 0;
  let letters = 0;
  for (const { event, nth } of (bars[index] ?? []).flat())
    for (const { id } of nth === 0 ? (event?.notes ?? []) : []) letters += spaced(words.get(id) ?? '');
  return letters;
}

/** A text's letters, and a space behind it. */
function spaced(text: string): number {
  return text === '' ? 0 : text.length + 1;
}
