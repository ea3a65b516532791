import type { Chord, Key } from '../harmony/index.js';

/** A stretch of the music that is looked at by itself; its chord and key where they are known. */
export interface VoicedSpan {
  readonly tick: number;
  readonly endTick: number;
  readonly bar: number | null;
  readonly beat: number | null;
  readonly chord?: Chord | null;
  readonly key?: Key;
}

/** A sounding pitch (MIDI note) and the parts that sound it, rising. */
export interface VoicedPitch {
  readonly pitch: number;
  readonly parts: readonly number[];
}

/** Two neighbouring pitches, and how far apart they lie. */
export interface Neighbours {
  readonly lower: number;
  readonly upper: number;
  readonly semitones: number;
}

/** A narrow interval that lies low. */
export interface LowInterval extends Neighbours {
  /** The lowest usable lower note of this interval. */
  readonly limit: number;
}

/** A part above another that usually lies higher than it. */
export interface Crossing {
  /** The part that sounds above, though it usually lies lower. */
  readonly part: number;
  readonly pitch: number;
  /** The part that it lies above. */
  readonly over: number;
  readonly overPitch: number;
}

export type ChordTone = 'root' | 'third' | 'fifth' | 'seventh' | 'added';

/** A pitch class that sounds more than once. */
export interface Doubled {
  readonly pitchClass: number;
  /** null where the chord is not known. */
  readonly tone: ChordTone | null;
  /** Whether it is the leading tone of the key, in a chord on its fifth or seventh degree. */
  readonly leading: boolean;
  readonly by: 'octaves' | 'unison' | 'both';
  /** How often it sounds: each pitch of it once for each part. */
  readonly times: number;
  readonly pitches: readonly number[];
  readonly parts: readonly number[];
}

/** How the notes of a chord are laid out. */
export interface Voicing extends Pick<VoicedSpan, 'tick' | 'endTick' | 'bar' | 'beat'> {
  /** The harmony by which pitches are spelled; absent where it is not known. */
  readonly at?: { readonly chord: Chord | null; readonly key: Key };
  /** Low to high, at least two. */
  readonly pitches: readonly VoicedPitch[];
  /** Semitones from each pitch to the next. */
  readonly spacing: readonly number[];
  /** null where only two pitches sound. */
  readonly kind: 'close' | 'open' | null;
  readonly built: 'thirds' | 'fourths and fifths' | 'seconds' | 'mixed';
  /** What it is where nothing but octaves, fifths or fourths sounds. */
  readonly bare: 'octaves' | 'fifths' | 'fourths' | null;
  readonly doubled: readonly Doubled[];
  readonly crossings: readonly Crossing[];
  readonly gaps: readonly Neighbours[];
  readonly mud: readonly LowInterval[];
}
