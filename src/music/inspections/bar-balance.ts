import type { Covered, Sounding } from '../balance/index.js';

/** The balance of one bar: who plays, how loud, and what covers what in its phrase. */
export interface BarBalance {
  readonly bar: number;
  /** The bars of its phrase, both ends included. */
  readonly phrase: { readonly from: number; readonly to: number };
  readonly sections: readonly (Sounding & {
    /** LUFS where all libraries were measured; else dB against one woodwind at velocity 127. */
    readonly loudness: number;
  })[];
  /** Of what is covered over the whole phrase: sections that sound in this bar. */
  readonly covered: readonly Covered[];
}
