import type { XmlElement } from '../xml/element.js';
import type { Staff } from './state.js';

/** A layer of a bar while it is read. */
export interface Cursor {
  readonly staff: Staff;
  readonly voice: string;
  readonly measure: number;
  /** Quarters from the bar's beginning. */
  at: number;
  /** Written length times this is the real one: 2/3 in a triplet. */
  scale: number;
  /** Whether a tuplet holds what is read; a span over the same notes says the same once more. */
  isInTuplet: boolean;
  /** Scales of tuplets that are spans, by the ids of the events that they end with. */
  readonly spans: Map<string, number>;
  tremolo: TremoloSign | null;
  grace: GraceSign | null;
  /** The first event whose length is not told, and how many notes the staff had before it. */
  gap: { readonly element: XmlElement; readonly at: number; readonly from: number } | null;
  /** Whether it has signs that fill a bar, whichever length that has. */
  fillsBar: boolean;
  /** Bars that follow it, of a rest over several. */
  barsBehind: number;
}

/** A tremolo that events stand in. */
export interface TremoloSign {
  readonly isMeasured: boolean;
  /** Length of a stroke as the score says it; undefined where marks on the stem do. Unit: quarters. */
  readonly stroke: number | undefined;
  readonly slashes: number | undefined;
  /** Of two notes in turn: how many were read. */
  alternating: number | null;
}

export interface GraceSign {
  readonly kind: string | undefined;
  /** Behind the note that they belong to. */
  readonly isBehind: boolean;
}

export function cursorAt(staff: Staff, voice: string, measure: number): Cursor {
  return {
    staff,
    voice,
    measure,
    at: 0,
    scale: 1,
    isInTuplet: false,
    spans: new Map(),
    tremolo: null,
    grace: null,
    gap: null,
    fillsBar: false,
    barsBehind: 0,
  };
}
