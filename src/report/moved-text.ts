import type { ComparedArticulations, Moved, MovedNotes } from '../compare/index.js';
import { escapeText, plural, spellPitch } from '../diagnostics/index.js';
import type { ArticulationMap } from '../map/index.js';
import { type BarRange, formatBarsUpTo } from '../midi/index.js';
import { differencesText, formatLikeness } from './libraries-text.js';

/** A part, or a layer of one, that goes from one library to another, with all that changes. */
export interface MovedPart extends Moved {
  readonly part: string;
  readonly layer?: string;
  /** The map that plays it now. */
  readonly a: ArticulationMap;
  /** The map that is to play it. */
  readonly b: ArticulationMap;
  readonly articulations: ComparedArticulations;
}

/** What becomes of a part in another library: its notes, what no longer fits, then what else differs. */
export function movedText({ part, layer, a, b, notes, moved, outside, articulations }: MovedPart): string {
  const name = escapeText(layer === undefined ? part : `${part}, layer ${layer}`);
  const libraries = [a, b].map(({ library, instrument }) => escapeText(`${library}, ${instrument}`));
  const other = moved.filter(({ likeness }) => likeness !== 'same' && likeness !== 'name');
  const changed = other.reduce((sum, one) => sum + one.notes, 0);
  return [
    `${name}: ${libraries.join(' → ')}`,
    ...moved.map(rowText),
    ...(outside
      ? [
          `  no longer in the range ${spellPitch(b.range.low, b.middleC)} to ${spellPitch(b.range.high, b.middleC)}: ${plural(outside.notes, 'note')}${barsText(outside.bars)}, ${pitchesText(outside, b)}`,
        ]
      : []),
    changed === 0
      ? `${notes} of ${plural(notes, 'note')} keep what they mean.`
      : `${notes - changed} of ${plural(notes, 'note')} keep what they mean, ${changed} ${changed === 1 ? 'does' : 'do'} not.`,
    ...differencesText(articulations, a, b),
  ].join('\n');
}

function rowText({ from, to, likeness, nearer, notes, bars }: MovedNotes): string {
  const why =
    nearer === undefined
      ? likeness === 'lost'
        ? `lost, ${from} has nothing like it there`
        : formatLikeness(likeness)
      : `by its rules; ${nearer} comes nearer`;
  return `  ${from} → ${to} (${why}): ${plural(notes, 'note')}${barsText(bars)}`;
}

function barsText(bars: readonly BarRange[]): string {
  return bars.length === 0 ? '' : `, ${formatBarsUpTo(6, bars)}`;
}

function pitchesText(
  { low, high }: { readonly low: number; readonly high: number },
  { middleC }: ArticulationMap,
): string {
  const [from, to] = [spellPitch(low, middleC), spellPitch(high, middleC)];
  return from === to ? from : `${from} to ${to}`;
}

/** The same as JSON. */
export function movedJson({ part, layer, a, b, notes, moved, outside, articulations }: MovedPart) {
  return {
    part,
    ...(layer === undefined ? {} : { layer }),
    a: a.file,
    b: b.file,
    notes,
    moved,
    ...(outside ? { outside } : {}),
    articulations,
  };
}
