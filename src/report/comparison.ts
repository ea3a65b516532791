import type { ComparedArticulations, ComparedExample, ComparedPart } from '../compare/index.js';
import type { ArticulationMap } from '../map/index.js';
import { articulationsText, changedExampleText, changedPartText, ofNotes } from './comparison-text.js';

/** Two maps with everything that differs. */
export interface Comparison {
  readonly a: ArticulationMap;
  readonly b: ArticulationMap;
  readonly parts: readonly ComparedPart[];
  readonly examples: readonly ComparedExample[];
  readonly articulations: ComparedArticulations;
}

/** How many notes were compared, and how many of them change. */
export function counts({ parts, examples }: Comparison): {
  readonly notes: number;
  readonly changes: number;
} {
  const all = [...parts, ...examples];
  return {
    notes: all.reduce((sum, { notes }) => sum + notes, 0),
    changes: all.reduce((sum, { changed }) => sum + changed.length, 0),
  };
}

/** What changes, music by music; then, unless quiet, how many notes do, and what else differs. May be ''. */
export function comparisonText(comparison: Comparison, isQuiet: boolean): string {
  const { a, b, parts, examples, articulations } = comparison;
  const changed = [
    ...parts.map((part) => changedPartText(part, b.middleC)),
    ...examples.map((example) => changedExampleText(example, b.middleC)),
  ];
  const about = isQuiet ? [] : [totalText(comparison), articulationsText(articulations, a, b)];
  return [...changed, ...about].filter((text) => text !== '').join('\n\n');
}

/** The sum of all music; '' where the only heading says it already. */
function totalText(comparison: Comparison): string {
  const { notes, changes } = counts(comparison);
  const isSaid = changes > 0 && comparison.parts.length + comparison.examples.length === 1;
  if (isSaid || notes === 0) return '';
  const text = ofNotes(changes, notes);
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}.`;
}

/** The comparison as JSON: channels as they are counted in maps, 1–16; examples have notes, but no bars. */
export function comparisonJson(comparison: Comparison): Readonly<Record<string, unknown>> {
  const { a, b, parts, examples, articulations } = comparison;
  return {
    a: a.file,
    b: b.file,
    ...counts(comparison),
    parts: parts.map(({ file, part, notes, changed }) => ({
      input: file,
      track: part.track,
      name: part.trackName,
      channel: part.channel + 1,
      notes,
      changed,
    })),
    examples: examples.map(({ place, number: example, notes, changed }) => ({
      file: place.file,
      line: place.kind === 'text' ? place.line : null,
      example,
      notes,
      changed: Array.from(changed, ({ tick: _, bar: __, beat: ___, ...note }) => note),
    })),
    articulations,
  };
}
