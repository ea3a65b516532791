import type { DiagnosticCode } from '../diagnostics/index.js';

/** A note of a sketch: when, how high, how loud, in which of its parts (index). */
export interface SketchNote {
  readonly tick: number;
  readonly endTick: number;
  /** MIDI note; 60 is middle C. */
  readonly pitch: number;
  /** 1–127. */
  readonly velocity: number;
  readonly part: number;
}

/** A stroke of a rhythm: when it was struck, how long it was held, how loud. */
export interface Stroke {
  readonly tick: number;
  readonly endTick: number;
  /** 1–127. */
  readonly velocity: number;
}

/** A chord from its tick to that of the next. */
export interface Chord {
  readonly tick: number;
  readonly endTick: number;
  /** Rising; at least one. The part is that of the sketch; 0 for chords that were given as symbols. */
  readonly tones: readonly { readonly pitch: number; readonly part: number }[];
}

/** A note that was made from a stroke. */
export interface ArrangedNote extends SketchNote {
  /** Index of its stroke. */
  readonly stroke: number;
}

/** Where a remark points. */
export type ArrangePlace =
  | { readonly kind: 'text'; readonly line: number; readonly column: number }
  | { readonly kind: 'music'; readonly tick: number }
  | { readonly kind: 'part'; readonly name: string };

/** What is wrong, or was not done as it was asked. Texts may contain names from a file; not escaped here. */
export interface ArrangeRemark {
  readonly code: Extract<
    DiagnosticCode,
    | 'unknown-chord'
    | 'no-chords'
    | 'no-strokes'
    | 'no-bars'
    | 'stroke-before-chords'
    | 'chords-end'
    | 'no-parts'
    | 'same-part'
    | 'part-range'
    | 'unknown-part'
    | 'part-rests'
    | 'tune-moved'
    | 'cramped'
    | 'many-layouts'
  >;
  readonly place?: ArrangePlace;
  readonly message: string;
  readonly hint: string;
}
