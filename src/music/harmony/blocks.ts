import type { Segment } from './segments.js';
import { firstPitch, type Spans, spanEnd, spanTick } from './spans.js';

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
export function* partedAtBlocks(
  spans: Spans,
  segments: Iterable<Segment>,
  unit: number,
  nameOf: (block: Segment) => string | null,
): Generator<Segment> {
  const length = ({ from, to }: Segment) => spanEnd(spans, to - 1) - spanTick(spans, from);
  for (const segment of segments) {
    if (length(segment) < 2 * standing * unit) {
      yield segment;
      continue;
    }
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
    yield* parts;
  }
}

/** Runs of spans in which the same pitches sound; silence belongs to what sounded before it. */
function blocksOf(spans: Spans, { from, to }: Segment): readonly Segment[] {
  const blocks: { from: number; to: number }[] = [];
  let sounding: readonly number[] = [];
  for (let index = from; index < to; index++) {
    const here = pitchesOf(spans, index);
    const open = blocks.at(-1);
    if (open && (here.length === 0 || areSame(here, sounding))) open.to = index + 1;
    else {
      blocks.push({ from: index, to: index + 1 });
      sounding = here;
    }
  }
  return blocks;
}

function pitchesOf(spans: Spans, span: number): readonly number[] {
  const pitches: number[] = [];
  for (let at = firstPitch(spans, span); at < firstPitch(spans, span + 1); at++)
    if ((spans.share[at] ?? 0) >= sounds) pitches.push(spans.pitch[at] ?? 0);
  return pitches;
}

function areSame(some: readonly number[], others: readonly number[]): boolean {
  return some.length === others.length && some.every((pitch, index) => pitch === others[index]);
}
