import type { Bar, Measure } from '../learn/index.js';
import type { BarRange, Clock, Position } from '../midi/index.js';
import type { BarBalance, Harmony } from '../music/index.js';

/** A note of a part, as the sheet shows it. */
export interface SheetNote {
  /** Its name in the sheet; an XML name, unique in it. */
  readonly id: string;
  /** As it was played. */
  readonly tick: number;
  readonly endTick: number;
  /** Where it belongs; null in files without bars. */
  readonly place: Position | null;
  readonly pitch: number;
  /** As it is in the output. */
  readonly velocity: number;
  /** Whether its velocity is what makes it loud or soft; else a controller is. */
  readonly isStruck: boolean;
  readonly articulation: string;
  /** Why it has that articulation, in one line. */
  readonly why: string;
  /** Names of the layers that double it. */
  readonly layers: readonly string[];
  /** null where nothing had to be sent. */
  readonly switchTick: number | null;
  /** How far timing options moved its beginning. Unit: ms. */
  readonly movedMs: number;
  /** When it is heard, as late as its articulation speaks. Unit: ms from the beginning of the music. */
  readonly heardMs: number;
}

/** A switch that is sent, and the first note that it is for. */
export interface SheetSwitch {
  readonly tick: number;
  /** Where that note begins in the output. */
  readonly onsetTick: number;
  /** From the switch to that note. Unit: ms. */
  readonly leadMs: number;
  readonly articulation: string;
  /** What is sent: "C-2", "CC 20 = 64", "program 5". */
  readonly sent: string;
  /** The layer that it is for; absent for the part itself. */
  readonly layer?: string;
}

/** A part's recorded or written loudness over time, on one controller. */
export interface SheetCurve {
  /** 0–127. */
  readonly controller: number;
  /** Values, each held until the next; in order of tick. */
  readonly points: readonly { readonly tick: number; readonly value: number }[];
  /** The values that sound like these marks. */
  readonly marks: readonly { readonly mark: string; readonly value: number }[];
}

/** A part of the sheet, with its layers. */
export interface SheetPart {
  readonly name: string;
  /** Counted from 1. */
  readonly track: number;
  /** 0–15. */
  readonly channel: number;
  readonly library: string;
  readonly instrument: string;
  readonly family: string;
  readonly mapFile: string;
  readonly range: { readonly low: number; readonly high: number };
  readonly middleC: 3 | 4 | 5;
  /** In order of onset. */
  readonly notes: readonly SheetNote[];
  /** In order of tick. */
  readonly switches: readonly SheetSwitch[];
  readonly curve?: SheetCurve;
  readonly layers: readonly { readonly name: string; readonly library: string; readonly notes: number }[];
  /** How its lengths fall, by the measures that its map has bounds of; its share of intervals where it has none. */
  readonly lengths?: readonly SheetLengths[];
}

/** How the notes of a part fall by one measure. */
export interface SheetLengths {
  readonly measure: Measure;
  readonly bars: readonly Bar[];
  /** The bounds of the map: their values, in percent or ms, and as the map spells them. */
  readonly bounds: readonly { readonly value: number; readonly text: string; readonly cutsHeap: boolean }[];
  /** Bounds at which it breaks by itself. */
  readonly breaks: readonly string[];
}

/** Something to be told, where it is in the music. */
export interface SheetRemark {
  readonly kind: 'warning' | 'observation';
  /** What stands beside the note and in the list: "▲3" for a warning, "△4" for an observation. */
  readonly sign: string;
  readonly text: string;
  readonly hint?: string;
  /** The code of a warning. */
  readonly code?: string;
  /** The index of the part; absent where it is about none, or several. */
  readonly part?: number;
  readonly tick?: number;
  readonly bar?: number;
  /** Where it is about several bars: the last of them. */
  readonly toBar?: number;
}

/** Everything that a sheet shows. */
export interface Sheet {
  readonly title: string;
  /** The recording's name. */
  readonly source: string;
  readonly clock: Clock;
  readonly endTick: number;
  readonly parts: readonly SheetPart[];
  readonly harmony: readonly Harmony[];
  readonly balance: readonly BarBalance[];
  readonly remarks: readonly SheetRemark[];
  /** The bars that are drawn; all of them, if absent. */
  readonly bars?: BarRange;
  /** Whether parts that rest all through a system have a staff in it, too. */
  readonly resting?: boolean;
}

/** A remark before it has its number. */
export type Remark = Omit<SheetRemark, 'sign'>;
