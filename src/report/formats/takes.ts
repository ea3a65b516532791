import type { ComparedTakes, PartInTakes } from '../../compare/index.js';
import { type Diagnostic, diagnostic, plural } from '../../diagnostics/index.js';
import { formatBarsUpTo, type Line, musicPlace } from '../../midi/index.js';

/** What differs between two takes as diagnostics: one for each part and bar, and one for each kind of other events. */
export function takeDiagnostics({ parts, events }: ComparedTakes, file: string): readonly Diagnostic[] {
  return [
    ...parts.flatMap(ofPart),
    ...events.map(({ track, name, kind, bars, removed, added }) => {
      const where = bars.length === 0 ? '' : ` in ${formatBarsUpTo(6, bars)}`;
      const message = `${kind} of track ${track} "${name}"${where}: ${removed} removed, ${added} added`;
      return diagnostic('changed-take', { kind: 'file', file }, message);
    }),
  ];
}

function ofPart({ name, part: { line }, lone, altered }: PartInTakes): readonly Diagnostic[] {
  const bars = new Map<number | null, { tick: number; words: Map<string, number> }>();
  const count = (note: { readonly bar: number | null; readonly tick: number }, word: string) => {
    const bar = bars.get(note.bar) ?? { tick: note.tick, words: new Map<string, number>() };
    bar.words.set(word, (bar.words.get(word) ?? 0) + 1);
    bars.set(note.bar, bar);
  };
  for (const note of lone) count(note, note.take === 'first' ? 'removed' : 'added');
  for (const { decided, sent, ...note } of altered) {
    const isPlayed = note.moved !== undefined || note.held !== undefined || note.velocity !== undefined;
    if (isPlayed) count(note, 'played otherwise');
    if (decided) count(note, `${decided.from.articulation} → ${decided.to.articulation}`);
    if (sent) count(note, 'sent otherwise');
  }
  return [...bars.values()].map((bar) => told(line, name, bar));
}

function told(
  line: Line,
  name: string,
  { tick, words }: { readonly tick: number; readonly words: ReadonlyMap<string, number> },
): Diagnostic {
  const said = [...words].map(([word, notes]) => `${plural(notes, 'note')} ${word}`).join(', ');
  return diagnostic('changed-take', musicPlace(line, tick), `${name}: ${said}`);
}
