import { chordOfNumeral, keyOfText, type ReadChord, type ReadKey } from './roman.js';

/** A chord of an analysis, from where it begins: a bar, and quarter notes behind the bar's beginning. */
export interface AnalysedChord {
  readonly bar: number;
  readonly offset: number;
  readonly key: ReadKey;
  readonly chord: ReadChord;
}

/**
 * Reads an analysis in RomanText (D. Tymoczko, M. Gotham, M. S. Cuthbert, C. Ariza, "The RomanText Format", ISMIR 2019).
 * Variants of a bar are left out; a bar that is said to equal another is read as that one.
 *
 * @throws Error where a symbol cannot be read
 */
export function readAnalysis(text: string): readonly AnalysedChord[] {
  const reader = new AnalysisReader();
  for (const line of text.split(/\r?\n/u)) reader.line(line.trim());
  return reader.chords;
}

/** Signs of repeats and phrases. */
const signs = /^(\|+:?|:?\|+:?|\|\||:|\(.*\)|\\\\|;)$/u;

class AnalysisReader {
  readonly chords: AnalysedChord[] = [];
  #key: ReadKey = { tonic: 0, mode: 'major' };
  #beat = 1;
  #bar = 0;
  #offset = 0;

  line(line: string): void {
    const metre = /^Time Signature:\s*(\d+)\/(\d+)/iu.exec(line);
    if (metre) this.#beat = beatLength(Number(metre[1]), Number(metre[2]));
    const equal = /^m(\d+)(?:-(\d+))?\s*=\s*m(\d+)/u.exec(line);
    if (equal) this.#repeat(Number(equal[1]), Number(equal[2] ?? equal[1]), Number(equal[3]));
    const bar = /^m(\d+)[a-z]?\s+(.*)$/u.exec(line);
    if (!bar || equal) return;
    this.#bar = Number(bar[1]);
    this.#offset = 0;
    for (const token of (bar[2] ?? '').split(/\s+/u)) this.#token(token);
  }

  #token(token: string): void {
    const beat = /^b(\d+(?:\.\d+)?)$/u.exec(token)?.[1];
    const key = /^([A-Ga-g][#b-]*):$/u.exec(token)?.[1];
    if (beat !== undefined) this.#offset = (thirds(Number(beat)) - 1) * this.#beat;
    else if (key !== undefined) this.#key = keyOfText(key) ?? this.#key;
    else if (token !== '' && !signs.test(token)) {
      const chord = chordOfNumeral(token, this.#key);
      if (!chord) throw new Error(`bar ${this.#bar}: no chord: ${token}`);
      this.chords.push({ bar: this.#bar, offset: this.#offset, key: this.#key, chord });
    }
  }

  #repeat(from: number, to: number, source: number): void {
    const copied = this.chords.filter(({ bar }) => bar >= source && bar <= source + to - from);
    for (const chord of copied) this.chords.push({ ...chord, bar: chord.bar - source + from });
  }
}

/** Beats are written with two places: .33 is a third. */
function thirds(beat: number): number {
  const rest = beat % 1;
  if (Math.abs(rest - 1 / 3) < 0.01) return Math.floor(beat) + 1 / 3;
  return Math.abs(rest - 2 / 3) < 0.01 ? Math.floor(beat) + 2 / 3 : beat;
}

/** A beat in quarter notes; of compound metres, three of the lower figure. */
function beatLength(beats: number, unit: number): number {
  return (4 / unit) * (beats > 3 && beats % 3 === 0 ? 3 : 1);
}
