import type { Clock } from '../../midi/index.js';
import { partedAtBlocks } from './blocks.js';
import { bestReading, type Reading, type Sound } from './fit.js';
import { type Grid, isBeat, unitTicks } from './grid.js';
import { classShares, type Stretch, stretchOf } from './merge.js';
import { resolved } from './resolve.js';
import { type Segment, segmentsOf } from './segments.js';
import { risingSet, type Settled, type SettledNote } from './settle.js';
import { partedAtSevenths } from './sevenths.js';
import { type Span, spansOf } from './spans.js';

/** A stretch with the chord that is read into it; null where none fits. */
export interface ReadStretch {
  readonly stretch: Stretch;
  readonly reading: Reading | null;
}

/** A note held over more cells than this is not divided further, so that time is in proportion to the notes. */
const mostCells = 256;
/** One pitch class alone is no chord. */
const fewestClasses = 2;

/** The harmonies that are found. */
export function readFound({ notes, lines }: Settled, clock: Clock): readonly ReadStretch[] {
  const spans = spansOf(notes, lines);
  const unit = unitTicks(clock);
  const segments = segmentsOf(spans, { unit, isBeat: isBeat(clock) });
  const parted = partedAtBlocks(spans, segments, unit, (block) => nameOf(spans, block));
  const chords = partedAtSevenths(spans, parted, (segment) => readingOf(spans, segment));
  return inContext(joined(spans, chords));
}

function readingOf(spans: readonly Span[], segment: Segment): Reading | null {
  const stretch = stretchOf(spans, segment);
  return stretch && read(stretch).reading;
}

/** A block's chord and bass; null where no chord fits. */
function nameOf(spans: readonly Span[], block: Segment): string | null {
  const stretch = stretchOf(spans, block);
  const reading = stretch && read(stretch).reading;
  return reading && `${reading.root} ${reading.kind.symbol} ${stretch.bass % 12}`;
}

/** What sounds in each cell of a grid. */
export function readCells({ notes, lines }: Settled, grid: Grid): readonly ReadStretch[] {
  const cells = linesUnder(notes, grid);
  const spans = spansOf(notes, risingSet([...cells, ...lines]));
  const found: ReadStretch[] = [];
  let from = 0;
  for (const line of cells.slice(1)) {
    let to = from;
    while ((spans[to]?.tick ?? line) < line) to++;
    const stretch = stretchOf(spans, { from, to });
    if (stretch) found.push(read(stretch));
    from = to;
  }
  return inContext(found);
}

/** Segments as they are read; neighbours over the same bass that are read as the same chord, as one. */
function joined(spans: readonly Span[], segments: readonly Segment[]): readonly ReadStretch[] {
  const chains: { from: number; to: number; parts: number; first: ReadStretch; last: ReadStretch }[] = [];
  for (const { from, to } of segments) {
    const stretch = stretchOf(spans, { from, to });
    if (!stretch) continue;
    const here = read(stretch);
    const open = chains.at(-1);
    if (open && continues(open.last, here)) {
      open.to = to;
      open.parts += 1;
      open.last = here;
    } else chains.push({ from, to, parts: 1, first: here, last: here });
  }
  return chains.map(({ from, to, parts, first }) => {
    const whole = parts > 1 ? stretchOf(spans, { from, to }) : null;
    return whole ? read(whole) : first;
  });
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

function read(stretch: Stretch): ReadStretch {
  const sound = soundOf(stretch);
  const classes = sound.classes.filter((share) => share > 0).length;
  return { stretch, reading: classes < fewestClasses ? null : bestReading(sound) };
}

/** Chords of several possible roots, as what follows decides them. */
function inContext(found: readonly ReadStretch[]): readonly ReadStretch[] {
  return found.map(({ stretch, reading }, index) => ({
    stretch,
    reading: reading && resolved(reading, found[index + 1]?.reading ?? null),
  }));
}

/** A stretch as chords are fitted to it: shares of the time through which its longest tone sounds. */
function soundOf(stretch: Stretch): Sound {
  const classes = classShares(stretch, 'weight');
  const most = Math.max(...classes);
  const bass = stretch.bass % 12;
  return { classes: classes.map((share) => share / most), bass, stacked: hasFourths(stretch, bass) };
}

/** Whether a fourth upon a fourth stands on the bass, or on its octave, with nothing between. */
function hasFourths({ pitches }: Stretch, bass: number): boolean {
  return pitches.some(({ pitch }, index) => {
    const [next, last] = [pitches[index + 1]?.pitch, pitches[index + 2]?.pitch];
    return pitch % 12 === bass && next === pitch + 5 && last === pitch + 10;
  });
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
