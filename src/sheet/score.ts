import { escapeText } from '../diagnostics/index.js';
import { finder } from '../midi/index.js';
import { type Harmony, instrumentOf, nameFifths } from '../music/index.js';
import type { ScoreToNotate, StaffToNotate } from './notate/index.js';
import type { Sheet, SheetPart, SheetRemark } from './types.js';

/** The sheet's music as it is to be written down, with signs of remarks and chords; articulations stand in the lanes. */
export function scoreOf(sheet: Sheet): ScoreToNotate {
  const { parts, clock, harmony, remarks, endTick } = sheet;
  return {
    clock,
    staves: parts.map((part, index) => staffOf(part, signsAt(part, index, remarks), sheet)),
    keys: [{ tick: 0, fifths: mainKey(harmony) }],
    chords: chordTexts(harmony),
    endTick,
    ...(sheet.bars ? { drawn: sheet.bars } : {}),
    ...(sheet.resting ? { resting: true } : {}),
  };
}

/** Chords where they change; a root on an altered degree has its degree beside it. */
function chordTexts(harmony: readonly Harmony[]): ScoreToNotate['chords'] {
  return harmony.flatMap(({ tick, chord, degree }, index) => {
    if (!chord || harmony[index - 1]?.chord?.name === chord.name) return [];
    const isAltered = degree?.startsWith('♭');
    return [{ tick, text: isAltered ? `${chord.name} (${degree})` : chord.name }];
  });
}

/** The key signature of the key that holds longest; none where there is no harmony. */
function mainKey(harmony: readonly Harmony[]): number {
  const lengths = new Map<number, number>();
  for (const { tick, endTick, key } of harmony)
    lengths.set(key.fifths, (lengths.get(key.fifths) ?? 0) + endTick - tick);
  const [longest] = [...lengths].sort(([, a], [, b]) => b - a);
  return longest?.[0] ?? 0;
}

/** The signs of remarks about a part, by the index of the note at which each stands. */
function signsAt(
  { notes }: SheetPart,
  part: number,
  remarks: readonly SheetRemark[],
): ReadonlyMap<number, readonly string[]> {
  const signs = new Map<number, readonly string[]>();
  for (const remark of remarks) {
    if (remark.part !== part || remark.tick === undefined) continue;
    const { tick } = remark;
    const after = notes.findIndex((note) => note.tick >= tick);
    const at = after < 0 ? notes.length - 1 : after;
    signs.set(at, [...(signs.get(at) ?? []), remark.sign]);
  }
  return signs;
}

/** Whether a part's notes are strokes without pitch: percussion, but for timpani, which a library may call percussion. */
function isUnpitched({ name, instrument, family }: SheetPart): boolean {
  return family === 'percussion' && ![name, instrument].some((text) => instrumentOf(text) === 'timpani');
}

function staffOf(
  part: SheetPart,
  signs: ReadonlyMap<number, readonly string[]>,
  sheet: Pick<Sheet, 'harmony' | 'clock'>,
): StaffToNotate {
  const { name, notes } = part;
  const unpitched = isUnpitched(part);
  const words = notes.flatMap(({ id }, index) => {
    const said = signs.get(index);
    return said ? [{ id, text: said.join(' ') }] : [];
  });
  const named = unpitched ? notes : withNames(notes, sheet);
  // What the engraver sets stands in the page as it is: nothing in it may be obeyed there.
  return {
    label: escapeText(name),
    notes: named,
    words,
    ...(unpitched ? { percussion: true } : {}),
  };
}

/** So long behind its beginning a note is in the harmony that it belongs to, be it struck early. Unit: ms. */
const settled = 100;

/** Notes with their names, as they are in the harmony in which they sound. */
function withNames(
  notes: SheetPart['notes'],
  { harmony, clock }: Pick<Sheet, 'harmony' | 'clock'>,
): StaffToNotate['notes'] {
  const stretchAt = finder(harmony.map(({ tick }) => tick));
  return notes.map(({ id, tick, endTick, pitch }) => {
    const at = harmony[stretchAt(Math.min(clock.tickAt(clock.ms(tick) + settled), (tick + endTick) / 2))];
    return { id, tick, endTick, pitch, ...(at ? { fifths: nameFifths(pitch % 12, at) } : {}) };
  });
}
