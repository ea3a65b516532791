import type { Segment } from './segments.js';
import type { Span } from './spans.js';

/** A chord that stands for so many quarter notes, all its voices held or struck again, is one of its own. */
const standing = 2;

/** A pitch that sounds for less than this share of a span only reaches into it. */
const sounds = 0.3;

/**
 * Parts segments between block chords. One chord can explain all that sounds over several bars (C G, then D G C, then
 * C F G), though each of them stands for long; what is heard are three.
 *
 * @param unit ticks of a quarter note
 * @param nameOf how a block is read, equal for equal chords over one bass; null where it is none
 */
export function partedAtBlocks(
  spans: readonly Span[],
  segments: readonly Segment[],
  unit: number,
  nameOf: (block: Segment) => string | null,
): readonly Segment[] {
  const length = ({ from, to }: Segment) => (spans[to - 1]?.endTick ?? 0) - (spans[from]?.tick ?? 0);
  return segments.flatMap((segment) => {
    if (length(segment) < 2 * standing * unit) return [segment];
    const blocks = blocksOf(spans, segment).map((block) => ({
      ...block,
      name: length(block) >= standing * unit ? nameOf(block) : null,
    }));
    const parts: { from: number; to: number }[] = [];
    blocks.forEach(({ from, to, name }, index) => {
      const before = blocks[index - 1]?.name ?? null;
      const open = parts.at(-1);
      if (open && (name === null || before === null || before === name)) open.to = to;
      else parts.push({ from, to });
    });
    return parts;
  });
}

/** Runs of spans in which the same pitches sound; silence belongs to what sounded before it. */
function blocksOf(spans: readonly Span[], { from, to }: Segment): readonly Segment[] {
  const blocks: { from: number; to: number }[] = [];
  let sounding = '';
  for (let index = from; index < to; index++) {
    const pitches = spans[index]?.pitches.filter(({ share }) => share >= sounds).map(({ pitch }) => pitch);
    const here = pitches?.join(' ') ?? '';
    const open = blocks.at(-1);
    if (open && (here === '' || here === sounding)) open.to = index + 1;
    else {
      blocks.push({ from: index, to: index + 1 });
      sounding = here;
    }
  }
  return blocks;
}
