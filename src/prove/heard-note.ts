import type { Judgement } from './sounding.js';

/** A melody note as the sampler hears it. */
export interface HeardNote extends Judgement {
  /** Index of its note-on in the track. */
  readonly index: number;
  readonly tick: number;
  /** The tick of its release; the end of the track where it is never released. */
  readonly endTick: number;
  /** 0–15. */
  readonly channel: number;
  readonly pitch: number;
  /** Which of the part's onsets it belongs to, from 0. */
  readonly onset: number;
  /** The name of an articulation; undefined where nothing is known to be meant. */
  readonly meant: string | undefined;
}
