import type { TakenPart } from '../compare/index.js';
import { compileParts } from '../compile/index.js';
import { type Cue, type CueMaterial, inTermsOfCues, planCue } from '../cue/index.js';
import type { Diagnostic } from '../diagnostics/index.js';
import type { Song } from '../midi/index.js';

/** A part of a cue, or a layer of it, on one channel. */
export interface CuePartDecided extends TakenPart {
  /** The name of the part in the cue. */
  readonly of: string;
  /** The name of the layer, where it is one. */
  readonly layer?: string;
}

/** The parts of a cue as they are decided, without a file that is written: also where something is wrong with one. */
export interface DecidedCue {
  /** undefined where the cue does not fit its music. */
  readonly song?: Song;
  readonly parts: readonly CuePartDecided[];
  readonly diagnostics: readonly Diagnostic[];
}

/** Plans a cue, and decides its parts and layers. */
export function decidedCue(cue: Cue, material: CueMaterial): DecidedCue {
  const { value: planned, diagnostics } = planCue(cue, material);
  if (!planned) return { parts: [], diagnostics };
  const { song, jobs } = planned;
  const { parts, diagnostics: found } = compileParts(song, jobs);
  return {
    song,
    parts: parts.map((part, index): CuePartDecided => {
      const { name = '', layer } = jobs[index] ?? {};
      const key = JSON.stringify([name, layer, part.part.channel]);
      const called = layer === undefined ? name : `${name} – ${layer}`;
      return { key, name: called, of: name, part, ...(layer === undefined ? {} : { layer }) };
    }),
    diagnostics: [...diagnostics, ...found.map(inTermsOfCues)],
  };
}
