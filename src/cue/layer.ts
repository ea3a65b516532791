import { type Diagnostic, diagnostic, nearest, quoted, spellPitch } from '../diagnostics/index.js';
import { velocityBy } from '../dynamics/index.js';
import {
  type ArticulationMap,
  bindCondition,
  byPitch,
  canonicalMark,
  durationsIn,
  knownMarks,
  plainMark,
  times,
} from '../map/index.js';
import { type Line, type MeasuredNote, musicPlace, tickAfter } from '../midi/index.js';
import type { CueLayer, Located } from './types.js';

/** A note of a layer. */
export interface LayerNote {
  /** Index of the note that it doubles among those of the part's line. */
  readonly of: number;
  /** 0–15. */
  readonly channel: number;
  readonly tick: number;
  readonly endTick: number;
  readonly pitch: number;
  readonly velocity: number;
}

/** Where a note of the part stands once it was pulled, rolled and loosened. */
export type Moved = (note: MeasuredNote) => { readonly tick: number; readonly endTick: number };

/** A velocity as a layer has it. */
export function layerVelocity({ velocity: { scale, add } }: CueLayer): (velocity: number) => number {
  return (velocity) => Math.max(1, Math.min(127, Math.round(velocity * scale + add)));
}

/**
 * The notes with which a layer doubles a line. Notes that its library does not have are left out; those of a divided part
 * are as much softer as it says, by velocity. Unit of `softerBy`: dB.
 * Diagnostics: layer-lacks-note, unknown-mark, fraction-without-beats.
 */
export function layerNotes(
  line: Line,
  layer: CueLayer,
  base: ArticulationMap,
  map: ArticulationMap,
  moved: Moved,
  softerBy: (note: MeasuredNote) => number = () => 0,
): { readonly notes: readonly LayerNote[]; readonly diagnostics: readonly Diagnostic[] } {
  const { fits, diagnostics } = bindChoice(line, layer, base);
  const chosen = line.notes.flatMap((note, of) => (fits(note) ? [{ note, of }] : []));
  const { low, high } = map.range;
  const has = ({ note: { pitch } }: (typeof chosen)[number]) =>
    pitch + layer.transpose >= low && pitch + layer.transpose <= high;
  const velocityOf = layerVelocity(layer);
  const notes = chosen.filter(has).map(({ note, of }): LayerNote => {
    const { tick, endTick } = moved(note);
    const latest = layer.heldAtMost ? tickAfter(line.clock, tick, layer.heldAtMost) : endTick;
    return {
      of,
      channel: layer.channel === undefined ? line.part.channel : layer.channel - 1,
      tick,
      endTick: Math.max(tick + 1, Math.min(endTick, latest)),
      pitch: note.pitch + layer.transpose,
      velocity: velocityBy(velocityOf(note.velocity), softerBy(note)),
    };
  });
  const lacking = chosen.flatMap((one) => (has(one) ? [] : [one.note]));
  return {
    notes,
    diagnostics: [...diagnostics, ...beatless(line, layer), ...lacks(line, layer, map, lacking)],
  };
}

function bindChoice(
  line: Line,
  { on }: CueLayer,
  base: ArticulationMap,
): { readonly fits: (note: MeasuredNote) => boolean; readonly diagnostics: readonly Diagnostic[] } {
  const { marked, when, each = 'chord' } = on ?? {};
  const diagnostics: Diagnostic[] = [];
  const marks = marked?.flatMap((spelled) => {
    const plain = plainMark(spelled.text);
    const name = base.articulations.has(plain) ? plain : canonicalMark(plain);
    if (name === undefined) diagnostics.push(unknownMark(spelled, base));
    return name ?? [];
  });
  const holds = when ? bindCondition(when, line) : () => true;
  const fits = (note: MeasuredNote) => (!marks || marks.some((mark) => note.marks.has(mark))) && holds(note);
  if (each === 'note') return { fits, diagnostics };
  const whole = line.onsets.map(({ notes }) => {
    const strongest = strongestOf(notes);
    return strongest !== undefined && fits(strongest);
  });
  return { fits: ({ onset }) => whole[onset] === true, diagnostics };
}

/** The note struck hardest; of several, the highest. */
function strongestOf(notes: readonly MeasuredNote[]): MeasuredNote | undefined {
  return notes.reduce<MeasuredNote | undefined>((strongest, note) => {
    if (!strongest) return note;
    return (note.velocity - strongest.velocity || note.pitch - strongest.pitch) > 0 ? note : strongest;
  }, undefined);
}

function unknownMark({ text, place }: Located, base: ArticulationMap): Diagnostic {
  const near = nearest(plainMark(text), [...base.articulations.keys(), ...knownMarks]);
  const hint =
    near === undefined
      ? "marks are MusicXML articulation names (staccato), playing words (pizz.) and articulations of the part's map"
      : `did you mean "${near}"?`;
  return diagnostic('unknown-mark', place, `${quoted(text)} is no mark that is known`, hint);
}

/** A layer measures fractions of a whole note, but the file counts SMPTE frames. */
function beatless({ clock }: Line, { place, on, heldAtMost }: CueLayer): readonly Diagnostic[] {
  if (clock.ticksPerWhole !== null) return [];
  const measured = [
    ...(on?.when ? durationsIn(on.when) : []),
    ...(heldAtMost ? [['held-at-most', heldAtMost] as const] : []),
  ];
  const keys = new Set(measured.flatMap(([key, duration]) => (duration.unit === 'whole' ? [key] : [])));
  return [...keys].map((key) =>
    diagnostic(
      'fraction-without-beats',
      place,
      `${key} is measured in notes in the layer, but the file counts SMPTE frames, which know none`,
      'write the duration in ms or s',
    ),
  );
}

function lacks(
  line: Line,
  { name, transpose }: CueLayer,
  map: ArticulationMap,
  notes: readonly MeasuredNote[],
): readonly Diagnostic[] {
  return byPitch(notes).flatMap((of): Diagnostic[] => {
    const [note] = of;
    if (!note) return [];
    const { low, high } = map.range;
    const range = `${spellPitch(low, map.middleC)} to ${spellPitch(high, map.middleC)}`;
    const wanted = spellPitch(note.pitch + transpose, map.middleC);
    return [
      diagnostic(
        'layer-lacks-note',
        musicPlace(line, note.tick),
        `the library of layer ${quoted(name)} has no ${wanted} (${times(of.length)}); it has ${range}`,
        'the note is left out of the layer; transpose, or an on: with pitch and each: note, keeps the layer where it can play',
      ),
    ];
  });
}
