import { isElementName } from '../names.js';
import { ordinary, withMark } from './in-force.js';
import type { PlacedText, PlayedNote } from './performance.js';
import type { PlayedSign } from './rewind.js';

/** Marks that hold from their place on, as texts: `[pizz.]`, `[arco]`, `[auto]`. */
export function signTexts(signs: readonly PlayedSign[]): readonly PlacedText[] {
  const texts: PlacedText[] = [];
  let inForce: readonly string[] = [];
  const say = (tick: number, name: string) => texts.push({ tick, text: `[${name}]` });
  const become = (tick: number, marks: readonly string[]) => {
    if (marks.join() === inForce.join()) return;
    say(tick, 'auto');
    for (const name of marks) say(tick, name);
    inForce = marks;
  };
  for (const sign of signs) {
    if (sign.kind === 'restore') become(sign.tick, sign.marks);
    else if (sign.item.kind === 'ordinary') become(sign.tick, ordinary(inForce));
    else if (sign.item.kind === 'mark') {
      const after = withMark(inForce, sign.item.name);
      const isNew = after.join() !== inForce.join();
      if (isNew) say(sign.tick, sign.item.name);
      inForce = after;
    }
  }
  return texts;
}

/** The marks of single notes: `[staccato!]`. All notes of an onset share theirs. */
export function noteTexts(notes: readonly PlayedNote[]): readonly PlacedText[] {
  const byTick = new Map<number, PlayedNote[]>();
  for (const note of notes) {
    const list = byTick.get(note.tick);
    if (list) list.push(note);
    else byTick.set(note.tick, [note]);
  }
  return [...byTick].flatMap(([tick, together]) =>
    marksOf(together).map((name) => ({ tick, text: `[${name}!]` })),
  );
}

/**
 * The marks of notes struck together, those that decide last: of `legato` and `staccato` it is the dot that says how
 * the note is played. A dot under a line is detached-legato (MusicXML 4.0: "tenuto line with staccato dot").
 */
function marksOf(notes: readonly PlayedNote[]): readonly string[] {
  const marks = new Set(
    notes.flatMap((note) => note.marks).filter((name) => isElementName(name) || words.has(name)),
  );
  if (marks.has('staccato') && marks.has('tenuto')) {
    marks.delete('staccato');
    marks.delete('tenuto');
    marks.add('detached-legato');
  }
  return notes.some(({ isSlurred }) => isSlurred) ? ['legato', ...marks] : [...marks];
}

/** Playing words that one note may have for itself. */
const words: ReadonlySet<string> = new Set(['pizz.', 'arco', 'con sord.', 'senza sord.']);

/** By tick; at one tick in the order given: lasting marks, loudness, single notes' marks. */
export function inOrder(texts: readonly PlacedText[]): readonly PlacedText[] {
  return [...texts].sort((a, b) => a.tick - b.tick);
}
