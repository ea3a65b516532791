/** A note as harmony hears it: which pitch, when, in which part. */
export interface SoundingNote {
  readonly tick: number;
  readonly endTick: number;
  /** MIDI note; 60 is middle C. */
  readonly pitch: number;
  readonly velocity: number;
  /** Index of its part among those that are looked at. */
  readonly part: number;
}

/** A key, as it was found over a window of the music. */
export interface Key {
  /** Pitch class, 0 is C. */
  readonly tonic: number;
  readonly mode: 'major' | 'minor';
  /** As a musician spells it: "E♭ major", "F♯ minor". */
  readonly name: string;
  /** Of its key signature: sharps are positive, flats negative, −6 … 6. */
  readonly fifths: number;
}

/** A chord with its name. */
export interface Chord {
  /** Pitch class of the root. */
  readonly root: number;
  /** Pitch classes above the root, in semitones, rising, 0 first. */
  readonly intervals: readonly number[];
  /** As it is written above a staff: "Cm7", "A♭/C", "G5", "Dsus4", "C quartal". */
  readonly name: string;
  /** 0 root position, 1 first inversion …, by the tones of the chord in thirds; null where the bass is no tone of the chord. */
  readonly inversion: number | null;
}

/** What sounds over a stretch of the music. */
export interface Harmony {
  readonly tick: number;
  readonly endTick: number;
  readonly bar: number | null;
  /** From 1, with its fraction: 2.5 is half way through the second. null where there are no bars. */
  readonly beat: number | null;
  /** Sounding pitch classes, rising from 0, passing notes among them. */
  readonly pitchClasses: readonly number[];
  /** The lowest sounding pitch that carries the stretch (MIDI note). */
  readonly bass: number;
  /** null where no name fits what sounds. */
  readonly chord: Chord | null;
  readonly key: Key;
  /**
   * Of the chord's root, as a Roman numeral counted on the major scale of the tonic, in major and in minor keys alike:
   * "I", "♭VI", "♯IV". Small letters where the chord's third is minor: A minor has "i", "♭VI", "V". null without chord.
   */
  readonly degree: string | null;
  /**
   * Degrees that sound and are not of the key's own scale, rising; counted on the major scale of the tonic: "♭3", "♯4".
   * A minor key's own scale is the natural minor, so its ♭3 ♭6 ♭7 are not told; raised, they carry a natural: "♮6", "♮7".
   */
  readonly altered: readonly string[];
}
