/** A map's data as the schema lets it through. */
export interface RawMap {
  readonly library: string;
  readonly instrument: string;
  readonly family: string;
  readonly players?: number;
  readonly 'note-60': 'C3' | 'C4' | 'C5';
  readonly range: readonly [RawPitch, RawPitch];
  readonly switching?: {
    readonly notes?: 'latching' | 'momentary';
    readonly lead?: string;
    readonly tap?: string;
    readonly velocity?: number;
    readonly restate?: { readonly 'after-rest'?: string; readonly 'every-bars'?: number };
  };
  readonly chords?: 'top' | 'each';
  readonly 'chord-window'?: string;
  readonly articulations: Readonly<Record<string, RawArticulation>>;
  readonly hysteresis?: string;
  readonly rules: readonly RawRule[];
  readonly dynamics?: { readonly controller: number; readonly levels: Readonly<Record<string, number>> };
  readonly examples?: readonly RawExample[];
}

export type RawPitch = string | number;
export type OneOrMore<T> = T | readonly T[];

export interface RawArticulation {
  readonly means?: OneOrMore<string>;
  readonly switch?: OneOrMore<RawMessage>;
  readonly joins?: { readonly overlap: string };
  readonly length?: { readonly min?: string; readonly max?: string };
  readonly loudness?: 'velocity' | 'controller';
  readonly 'speaks-after'?: string | readonly { readonly when?: RawCondition; readonly is: string }[];
}

export interface RawMessage {
  readonly note?: RawPitch;
  readonly controller?: number;
  readonly value?: number;
  readonly program?: number;
  readonly bank?: readonly [number, number];
  readonly channel?: number;
  readonly group?: string;
}

export interface RawRule {
  readonly marked?: OneOrMore<string>;
  readonly when?: RawCondition;
  readonly use: string;
}

/** A condition by its key; what the value is, the key tells. */
export type RawCondition = Readonly<Record<string, unknown>>;

export interface RawExample {
  readonly notes: readonly {
    readonly pitch: RawPitch;
    readonly held: string;
    readonly pace?: string;
    readonly velocity?: number;
    readonly marked?: OneOrMore<string>;
  }[];
  readonly expect: readonly string[];
  readonly bpm?: number;
}

/** One or a list, as a list. */
export function listOf<T>(value: OneOrMore<T> | undefined): readonly T[] {
  if (value === undefined) return [];
  return Array.isArray(value) ? (value as readonly T[]) : [value as T];
}
