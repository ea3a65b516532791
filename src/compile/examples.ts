import { type Diagnostic, diagnostic, quoted } from '../diagnostics/index.js';
import type { ArticulationMap, Example } from '../map/index.js';
import { type Clock, type Duration, firstNote, type Notes } from '../midi/index.js';
import { lineOf, type MeasuredLine } from './analyse/index.js';
import { type Decided, decide, decisionsOf } from './decide/index.js';

/** Between the notes of an example that gives no pace: detached, and the next follows at once. Unit: ms. */
const detached = 20;

/** Runs the examples of a map; each note that gets another articulation than expected is an error (example-failed). */
export function runExamples(map: ArticulationMap): readonly Diagnostic[] {
  return map.examples.flatMap((example, index) => runExample(map, example, index));
}

/** An example's notes as they are played, and what a map decides for them: any map, not only the one that it stands in. */
export function decideExample(
  map: ArticulationMap,
  example: Example,
): { readonly line: MeasuredLine; readonly decided: Decided } {
  const clock = microsecondClock(example.bpm);
  const notes = play(example, clock);
  const about = { file: map.file, part: { track: 1, trackName: '', channel: 0 }, clock };
  const line = lineOf(about, notes, map, (reaches, onsets) =>
    reaches.map((_, onset) => {
      const struck = example.notes.slice(firstNote(onsets, onset), firstNote(onsets, onset + 1));
      return new Set(struck.flatMap(({ marked }) => marked ?? []));
    }),
  );
  return { line, decided: decide(line, map).decided };
}

function runExample(map: ArticulationMap, example: Example, index: number): readonly Diagnostic[] {
  const { decided } = decideExample(map, example);
  const { place } = example;
  // A base's example is run for each map that it is lent to.
  const lent = 'file' in place && place.file !== map.file ? `, in ${quoted(map.file)}` : '';
  return Array.from(decisionsOf(decided)).flatMap(({ note, articulation, rule }): Diagnostic[] => {
    const expected = example.expect[note.onIndex];
    if (expected === undefined || expected === articulation) return [];
    const by = rule === 'marked' ? 'its mark' : ruleAt(map, rule);
    return [
      diagnostic(
        'example-failed',
        place,
        `example ${index + 1}, note ${note.onIndex + 1}: expected ${quoted(expected)}, but ${by} gives ${quoted(articulation)}${lent}`,
        `it is held ${note.held.ms} ms, with ${Number.isFinite(note.pace.ms) ? `${note.pace.ms} ms` : 'nothing'} from onset to onset`,
      ),
    ];
  });
}

/** A clock whose tick is a microsecond, in 4/4. */
function microsecondClock(bpm: number): Clock {
  const beat = Math.round(60_000_000 / bpm);
  return {
    ticksPerWhole: 4 * beat,
    ms: (tick) => tick / 1000,
    tickAt: (ms) => Math.max(0, Math.round(ms * 1000)),
    position: (tick) => ({ bar: Math.floor(tick / (4 * beat)) + 1, beat: (Math.floor(tick / beat) % 4) + 1 }),
    barStart: (bar, at = 1) => (bar - 1) * 4 * beat + (at - 1) * beat,
  };
}

function play(example: Example, clock: Clock): Notes {
  const { length } = example.notes;
  const tick = new Float64Array(length);
  const endTick = new Float64Array(length);
  let now = 0;
  example.notes.forEach((note, index) => {
    const held = microseconds(note.held, clock);
    tick[index] = now;
    endTick[index] = now + held;
    now += note.pace ? microseconds(note.pace, clock) : held + detached * 1000;
  });
  const of = example.notes;
  return {
    length,
    on: Uint32Array.from(of, (_, index) => index),
    off: Int32Array.from(of, (_, index) => index),
    tick,
    endTick,
    pitch: Uint8Array.from(of, ({ pitch }) => pitch),
    velocity: Uint8Array.from(of, ({ velocity }) => velocity),
  };
}

/** Fractions are rounded up, so that a note held 1/12 is never a tick short of 1/12. */
function microseconds(duration: Duration, clock: Clock): number {
  if (duration.unit === 'ms') return Math.round(duration.ms * 1000);
  return Math.ceil((duration.numerator * (clock.ticksPerWhole ?? 0)) / duration.denominator);
}

function ruleAt(map: ArticulationMap, index: number): string {
  const place = map.rules[index]?.place;
  return place?.kind === 'text' ? `the rule on line ${place.line}` : `the rule with index ${index}`;
}
