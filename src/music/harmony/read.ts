import type { Clock } from '../../midi/index.js';
import { partedAtBlocks } from './blocks.js';
import { bestReading, type Sound } from './fit.js';
import { type Grid, isBeat, unitTicks } from './grid.js';
import { type Stretch, stretchOf } from './merge.js';
import type { ReadStretch } from './read-stretch.js';
import { resolved } from './resolve.js';
import { risingSet } from './rising-set.js';
import { type Segment, segmentsOf } from './segments.js';
import type { Settled, SettledNote } from './settle.js';
import { partedAtSevenths, type ReadSegment } from './sevenths.js';
import { spansOf, spanTick } from './spans.js';

/** A note held over more cells than this is not divided further, so that time is in proportion to the notes. */
const mostCells = 256;
/** One pitch class alone is no chord. */
const fewestClasses = 2;

/** The harmonies that are found. */
export function readFound({ notes, lines }: Settled, clock: Clock): readonly ReadStretch[] {
  const spans = spansOf(notes, lines);
  const unit = unitTicks(clock);
  const segments = segmentsOf(spans, { unit, isBeat: isBeat(clock) });
  const readingOf = (segment: Segment) => read(stretchOf(spans, segment));
  const parted = partedAtBlocks(spans, segments, unit, (block) => nameOf(readingOf(block)));
  // One behind the other from here on: of a long file's segments only what is found is kept.
  return inContext([...joined(partedAtSevenths(spans, parted, readingOf), readingOf)]);
}

/** A block's chord and bass; null where no chord fits. */
function nameOf(block: ReadStretch | null): string | null {
  const reading = block?.reading;
  return reading ? `${reading.root} ${reading.kind.symbol} ${block.stretch.bass % 12}` : null;
}

/** What sounds in each cell of a grid. */
export function readCells({ notes, lines }: Settled, grid: Grid): readonly ReadStretch[] {
  const cells = linesUnder(notes, grid);
  const spans = spansOf(notes, risingSet([...cells, ...lines]));
  const found: ReadStretch[] = [];
  let from = 0;
  for (const line of cells.slice(1)) {
    let to = from;
    while (to < spans.length && spanTick(spans, to) < line) to++;
    const cell = read(stretchOf(spans, { from, to }));
    if (cell) found.push(cell);
    from = to;
  }
  return inContext(found);
}

/** Neighbours over the same bass that are read as the same chord, as one. */
function* joined(
  segments: Iterable<ReadSegment>,
  readingOf: (segment: Segment) => ReadStretch | null,
): Generator<ReadStretch> {
  let open: { from: number; to: number; parts: number; first: ReadStretch; last: ReadStretch } | undefined;
  for (const { from, to, read: here } of segments) {
    if (!here) continue;
    if (open && continues(open.last, here)) {
      open.to = to;
      open.parts += 1;
      open.last = here;
    } else {
      if (open) yield whole(open);
      open = { from, to, parts: 1, first: here, last: here };
    }
  }
  if (open) yield whole(open);

  function whole({ from, to, parts, first }: NonNullable<typeof open>): ReadStretch {
    return (parts > 1 ? readingOf({ from, to }) : null) ?? first;
  }
}

function continues(before: ReadStretch, here: ReadStretch): boolean {
  return (
    before.reading !== null &&
    before.stretch.endTick === here.stretch.tick &&
    before.stretch.bass === here.stretch.bass &&
    before.reading.root === here.reading?.root &&
    before.reading.kind === here.reading.kind
  );
}

function read(stretch: Stretch | null): ReadStretch | null {
  if (!stretch) return null;
  const classes = stretch.weights.filter((weight) => weight > 0).length;
  return { stretch, reading: classes < fewestClasses ? null : bestReading(soundOf(stretch)) };
}

/** Chords of several possible roots, as what follows decides them. */
function inContext(found: readonly ReadStretch[]): readonly ReadStretch[] {
  return found.map(({ stretch, reading }, index) => ({
    stretch,
    reading: reading && resolved(reading, found[index + 1]?.reading ?? null),
  }));
}

/** A stretch as chords are fitted to it: shares of the time through which its longest tone sounds. */
function soundOf({ weights, bass, stacked }: Stretch): Sound {
  const most = Math.max(...weights);
  return { classes: weights.map((weight) => weight / most), bass: bass % 12, stacked };
}

/** The lines of a grid around and through all notes, rising. */
function linesUnder(notes: readonly SettledNote[], grid: Grid): readonly number[] {
  const lines = new Set<number>();
  let reach = Number.NEGATIVE_INFINITY;
  for (const { tick, endTick } of notes) {
    if (endTick <= Math.max(tick, reach)) continue;
    let cell = grid(Math.max(tick, reach));
    for (let count = 0; count < mostCells && cell.to < endTick; count++) {
      lines.add(cell.from);
      cell = grid(cell.to);
    }
    lines.add(cell.from).add(grid(endTick - 1).to);
    reach = endTick;
  }
  return risingSet([...lines]);
}
