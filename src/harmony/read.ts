import type { Clock } from '../time/clock.js';
import { bestReading, type Reading, type Sound } from './fit.js';
import { type Grid, isBeat, unitTicks } from './grid.js';
import { classShares, type Stretch, stretchOf } from './merge.js';
import { resolved } from './resolve.js';
import { type Segment, segmentsOf } from './segments.js';
import { risingSet, type Settled, type SettledNote } from './settle.js';
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

/** The harmonies that are found, neighbours that are the same chord as one. */
export function readFound({ notes, lines }: Settled, clock: Clock): readonly ReadStretch[] {
  const spans = spansOf(notes, lines);
  const segments = segmentsOf(spans, {
    unit: unitTicks(clock),
    isBeat: isBeat(clock),
  });
  return read(spans, chainsOf(spans, segments));
}

/** Neighbouring segments over the same bass that are read as the same chord, as one. */
function chainsOf(spans: readonly Span[], segments: readonly Segment[]): readonly Segment[] {
  const chains: Segment[] = [];
  let before: ReadStretch | undefined;
  read(spans, segments).forEach((here, index) => {
    const segment = segments[index];
    const open = chains.at(-1);
    if (!segment) return;
    if (open && before && continues(before, here)) chains.splice(-1, 1, { from: open.from, to: segment.to });
    else chains.push(segment);
    before = here;
  });
  return chains;
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

/** What sounds in each cell of a grid. */
export function readCells({ notes, lines }: Settled, grid: Grid): readonly ReadStretch[] {
  const cells = linesUnder(notes, grid);
  const spans = spansOf(notes, risingSet([...cells, ...lines]));
  const segments: Segment[] = [];
  let from = 0;
  for (const line of cells.slice(1)) {
    let to = from;
    while ((spans[to]?.tick ?? line) < line) to++;
    if (spans.slice(from, to).some(({ pitches }) => pitches.length > 0)) segments.push({ from, to });
    from = to;
  }
  return read(spans, segments);
}

function read(spans: readonly Span[], segments: readonly Segment[]): readonly ReadStretch[] {
  const stretches = segments.flatMap((segment) => stretchOf(spans, segment) ?? []);
  const readings = stretches.map((stretch) => {
    const sound = soundOf(stretch);
    return sound.classes.filter((share) => share > 0).length < fewestClasses ? null : bestReading(sound);
  });
  return stretches.map((stretch, index) => {
    const reading = readings[index] ?? null;
    return { stretch, reading: reading && resolved(reading, readings[index + 1] ?? null) };
  });
}

/** A stretch as chords are fitted to it: shares of the time through which its longest tone sounds. */
function soundOf(stretch: Stretch): Sound {
  const classes = classShares(stretch, 'weight');
  const most = Math.max(...classes);
  const pitches = new Set(stretch.pitches.map(({ pitch }) => pitch));
  const bass = stretch.bass % 12;
  return {
    classes: classes.map((share) => share / most),
    bass,
    stacked: [...pitches].some(
      (pitch) => pitch % 12 === bass && pitches.has(pitch + 5) && pitches.has(pitch + 10),
    ),
  };
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
