// Where parts lie in the ranges of their instruments.
import type { Clock } from '../../midi/index.js';
import type { SoundingNote } from '../harmony/index.js';
import { instrumentNamed, instrumentOf, type PitchRange } from '../instruments/index.js';
import { extremes, observationsOf } from './observations.js';
import { type Hearing, hear } from './roles.js';
import { joinBars, type Placed, placed } from './runs.js';
import { sharesOfThirds } from './thirds.js';
import type { Outside, Register, RegisterPart } from './types.js';

export { pitchesOfThird } from './thirds.js';
export type { Outside, Register, RegisterObservation, RegisterPart, Role, Third } from './types.js';

/**
 * Where each part lies: against the range of the instrument that its name or program tells (sounding pitches), and
 * against that of its recording; what role it has among the others. Parts without notes are left out. Sorts the notes,
 * and is linear in them and in the parts beyond that.
 *
 * @param parts in the order to which the notes' part numbers refer
 */
export function registerOf(
  notes: readonly SoundingNote[],
  parts: readonly RegisterPart[],
  clock: Clock,
): readonly Register[] {
  const hearing = hear(notes);
  const ofPart = parts.map((): number[] => []);
  notes.forEach(({ part }, index) => {
    ofPart[part]?.push(index);
  });
  return parts.flatMap((part, number): Register[] => {
    const indices = [...(ofPart[number] ?? [])].sort((a, b) => (notes[a]?.tick ?? 0) - (notes[b]?.tick ?? 0));
    const own = indices.flatMap((index) => notes[index] ?? []);
    return own.length === 0 ? [] : [registerOfPart(number, part, own, indices, hearing, clock)];
  });
}

function registerOfPart(
  part: number,
  { name, program, range: recording }: RegisterPart,
  own: readonly SoundingNote[],
  indices: readonly number[],
  { roles, under }: Hearing,
  clock: Clock,
): Register {
  const notes = placed(own, clock);
  const instrument = instrumentOf(name, program) ?? null;
  const range = rangeOf(instrument === null ? recording : instrumentNamed(instrument));
  const role = roles.get(part) ?? 'harmony';
  const beneath = indices.map((index) => under[index] ?? -1);
  return {
    part,
    name,
    instrument,
    role,
    notes: notes.length,
    ...extremes(notes.map(({ pitch }) => pitch)),
    mean: meanOf(notes),
    range,
    thirds: range && sharesOfThirds(notes, range),
    outsideInstrument: instrument === null ? null : outside(notes, range),
    outsideRecording: outside(notes, rangeOf(recording)),
    observations: range ? observationsOf(notes, role, range, beneath) : [],
  };
}

function rangeOf(range: PitchRange | undefined): PitchRange | null {
  return range ? { low: range.low, high: range.high } : null;
}

/** Mean pitch by length; of notes without length, by their number. */
function meanOf(notes: readonly Placed[]): number {
  const whole = notes.reduce((sum, { length }) => sum + length, 0);
  const weight = ({ length }: Placed) => (whole > 0 ? length / whole : 1 / notes.length);
  return notes.reduce((sum, note) => sum + note.pitch * weight(note), 0);
}

function outside(notes: readonly Placed[], range: PitchRange | null): Outside | null {
  if (!range) return null;
  const out = notes.filter(({ pitch }) => pitch < range.low || pitch > range.high);
  if (out.length === 0) return null;
  return {
    notes: out.length,
    range,
    ...extremes(out.map(({ pitch }) => pitch)),
    bars: joinBars(out.map(({ from }) => from)),
  };
}
