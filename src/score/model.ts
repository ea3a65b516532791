/**
 * A written score, from MusicXML or MEI alike: bar by bar as it is written, repeats not yet played out. Times are ticks
 * of the score's own `ppq`; offsets count from the bar's beginning.
 */
export interface Score {
  readonly title: string;
  /** Ticks of a quarter note; a multiple of every division in the file where one below 32,768 exists. */
  readonly ppq: number;
  /** The bars of all parts together; a part without one of them is silent there. */
  readonly measures: readonly ScoreMeasure[];
  /** Indices of the measures as they are played, where the score says so itself; else signs of repetition do. */
  readonly order?: readonly number[];
  readonly parts: readonly ScorePart[];
  /** Changes of tempo, for all parts, in order. */
  readonly tempi: readonly Placed<{ readonly quartersPerMinute: number }>[];
  readonly swings: readonly Placed<Swing>[];
}

/** Something at a place of the score, and in which passes it holds; in all where `passes` is absent. */
export type Placed<T> = T & {
  /** Index into the score's measures. */
  readonly measure: number;
  readonly offset: number;
  readonly passes?: readonly number[];
};

export interface ScoreMeasure {
  /** As it is printed: "12", "12a", "X1". */
  readonly number: string;
  /** Of the longest part. */
  readonly length: number;
  /** In force here; null without metre. */
  readonly metre: Metre | null;
  readonly repeatFrom: boolean;
  /** How often the section that ends here is played, and whether also after a jump; null where none ends. */
  readonly repeatTo: { readonly times: number | null; readonly afterJump: boolean } | null;
  /** Passes of the ending that this bar belongs to; null outside endings. */
  readonly ending: readonly number[] | null;
  readonly jumps: readonly Jump[];
}

export interface Metre {
  readonly beats: number;
  readonly beatType: number;
}

/** Signs that lead elsewhere (MusicXML 4.0, `sound`). An offset of 0 or null acts at the end of its bar. */
export type Jump =
  | { readonly kind: 'segno' | 'coda'; readonly name: string }
  | {
      readonly kind: 'dacapo' | 'fine';
      readonly offset: number | null;
      readonly passes?: readonly number[];
    }
  | {
      readonly kind: 'dalsegno' | 'tocoda';
      readonly name: string;
      readonly offset: number | null;
      readonly passes?: readonly number[];
    };

/** Straight is 1:1. Unit: ticks of the note that swings. */
export interface Swing {
  readonly first: number;
  readonly second: number;
  readonly unit: number;
}

export interface ScorePart {
  readonly id: string;
  readonly name: string;
  /** 0–15; null where the score does not say. */
  readonly channel: number | null;
  readonly isPercussion: boolean;
  /** By measure, then in order of offset. */
  readonly notes: readonly ScoreNote[];
  /** Marks that stand between notes and hold from there on, in order. */
  readonly signs: readonly Placed<Sign>[];
}

/** What a part is told between its notes. Names of `mark` are those that music may carry as texts. */
export type Sign =
  | { readonly kind: 'mark'; readonly name: string }
  /** Ends what a family of marks began: `ordinary` is the plain sound. */
  | { readonly kind: 'ordinary' }
  | { readonly kind: 'dynamic'; readonly name: string }
  /** In % of forte. */
  | { readonly kind: 'loudness'; readonly percent: number }
  | { readonly kind: 'hairpin'; readonly direction: 1 | -1 | 0; readonly number: string }
  /** A word (cresc., dim.) that goes on to the next dynamic. */
  | { readonly kind: 'open-hairpin'; readonly direction: 1 | -1 }
  | { readonly kind: 'controller'; readonly number: number; readonly value: number };

/** A note as it is written, at sounding pitch. */
export interface ScoreNote {
  /** The id that the file gives it, else `part.measure.index`. */
  readonly id: string;
  readonly measure: number;
  readonly offset: number;
  /** 0 for grace notes. */
  readonly duration: number;
  /** MIDI note. */
  readonly pitch: number;
  readonly voice: string;
  readonly staff: number;
  /** Of several notes written as one chord, all but the first. */
  readonly isChordTone: boolean;
  readonly grace: Grace | null;
  readonly tiedFrom: boolean;
  readonly tiedTo: boolean;
  /** Under a slur that goes on to the next note. */
  readonly isSlurred: boolean;
  /** MusicXML 4.0 names of articulations, technical marks and ornaments, in order of the file. */
  readonly marks: readonly string[];
  /** What is played out where no sound of a library is the sign itself. */
  readonly ornaments: readonly Ornament[];
  /** The chord that it is rolled with; null where it is struck. */
  readonly roll: Roll | null;
  /** % of forte, where this note says so itself. */
  readonly loudness: number | null;
  /** Ticks by which it begins and ends away from what is written. */
  readonly attack: number;
  readonly release: number;
  readonly passes?: readonly number[];
  /** Where it stands in the file. */
  readonly line: number;
  readonly column: number;
}

export interface Grace {
  readonly hasSlash: boolean;
  /** Its written length. */
  readonly written: number;
  /** Share of the note before or after that it takes, 0–1; null where the score does not say. */
  readonly stealPrevious: number | null;
  readonly stealFollowing: number | null;
  /** Time of its own (make-time). Unit: ticks. */
  readonly makeTime: number | null;
}

/** A chord's notes that are rolled together: those at one place with one name. */
export interface Roll {
  readonly name: string;
  readonly direction: 'up' | 'down';
}

/** A sign over a note, as it is played out. */
export type Ornament = Figure | Tremolo | Alternation | Glissando;

/** Notes around the written one. Distances: semitones, above or below it. */
export interface Figure {
  readonly kind: 'trill' | 'shake' | 'mordent' | 'turn' | 'schleifer';
  /** Its names among the note's marks. */
  readonly marks: readonly string[];
  /** A mordent with the note above, a turn from below. */
  readonly isInverted: boolean;
  /** At the note's end. */
  readonly isDelayed: boolean;
  readonly isLong: boolean;
  readonly upper: number;
  readonly lower: number;
  /** The second note below. */
  readonly third: number;
  readonly sound: FigureSound;
  /** Over notes that follow too: a trill's wavy line. */
  readonly hasLine: boolean;
}

/** What a sign says of its playing (MusicXML 4.0, trill-sound); null where it leaves it open. */
export interface FigureSound {
  readonly start: 'upper' | 'main' | 'below' | null;
  /** Semitones below the note with which a trill ends. */
  readonly ending: number | null;
  readonly beats: number | null;
  readonly accelerates: boolean;
  /** Places of the second and the last note, as shares of the note's length, 0–1. */
  readonly second: number | null;
  readonly last: number | null;
}

/** One note, again and again. */
export interface Tremolo {
  readonly kind: 'tremolo';
  readonly marks: readonly string[];
  /** Ticks from stroke to stroke; null without measure. */
  readonly stroke: number | null;
  /** Strokes of one or two marks are notes repeated; of more, a sound of its own (common practice, no source). */
  readonly isRepetition: boolean;
}

/** A tremolo of two notes or chords in turn. */
export interface Alternation {
  readonly kind: 'alternation';
  readonly marks: readonly string[];
  readonly stroke: number | null;
  readonly isSecond: boolean;
}

/** The keys between a note and the one that it leads to. */
export interface Glissando {
  readonly kind: 'glissando';
  readonly marks: readonly string[];
  /** Semitones to that note, upwards. */
  readonly distance: number;
}
