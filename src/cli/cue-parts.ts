import type { Take, TakenPart } from '../compare/index.js';
import { compileParts } from '../compile/index.js';
import { type Cue, type CueMaterial, inTermsOfCues, planCue } from '../cue/index.js';
import type { Diagnostic, Outcome } from '../diagnostics/index.js';
import { clockOf, type Events, isNoteOn, type Song, tickOf } from '../midi/index.js';

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
  /** How many empty bars stand before the music, as its time signatures count them. */
  readonly preroll: number;
  readonly parts: readonly CuePartDecided[];
  readonly diagnostics: readonly Diagnostic[];
}

/** Plans a cue, and decides its parts and layers. */
export function decidedCue(cue: Cue, material: CueMaterial): DecidedCue {
  const { value: planned, diagnostics } = planCue(cue, material);
  if (!planned) return { parts: [], preroll: 0, diagnostics };
  const { song, jobs } = planned;
  const { parts, diagnostics: found } = compileParts(song, jobs);
  return {
    song,
    preroll: emptyBars(planned.song, planned.original),
    parts: parts.map((part, index): CuePartDecided => {
      const { name = '', layer } = jobs[index] ?? {};
      return { ...namedPart(part, name, layer), of: name, ...(layer === undefined ? {} : { layer }) };
    }),
    diagnostics: [...diagnostics, ...found.map(inTermsOfCues)],
  };
}

/** A cue as it is compared with others; `found` is what was found on loading it. */
export function cueTake(
  cue: Cue,
  material: CueMaterial | undefined,
  found: readonly Diagnostic[],
): Outcome<Take> {
  if (!material) return { value: undefined, diagnostics: found };
  const { song, parts, preroll, diagnostics } = decidedCue(cue, material);
  return { value: song && { song, parts, preroll }, diagnostics: [...found, ...diagnostics] };
}

/** A part of a cue, or a layer of one, as it is known and called among others. */
export function namedPart(part: TakenPart['part'], name: string, layer: string | undefined): TakenPart {
  const key = JSON.stringify([name, layer, part.part.channel]);
  return { key, name: layer === undefined ? name : `${name} – ${layer}`, part };
}

/** By how many bars the music stands later than in the file. */
function emptyBars(planned: Song, original: Song): number {
  for (const { number, columns } of original.tracks) {
    const [was, is] = [columns, planned.tracks[number - 1]?.columns].map(
      (events) => events && firstOn(events),
    );
    if (was === undefined || is === undefined) continue;
    return (clockOf(planned, number).position(is - was)?.bar ?? 1) - 1;
  }
  return 0;
}

/** The tick of a track's first note; undefined where it has none. */
function firstOn(events: Events): number | undefined {
  for (let event = 0; event < events.length; event++)
    if (isNoteOn(events, event)) return tickOf(events, event);
  return undefined;
}
