import { type MidiEvent, writeMidi } from 'midi-file';

const ppq = 480;

/** Where a stroke stands (bar and beat from 1; beats may be fractions), its length in beats, its velocity. */
type Sung = readonly [bar: number, beat: number, beats: number, velocity: number];

/**
 * "The Gangway": boots on planks, as somebody sang them. Four bars of 4/4; loose, with accents. The stroke at the end of
 * bar 2 comes ahead of bar 3, which has none on its first beat.
 */
const strokes: readonly Sung[] = [
  [1, 1, 0.9, 104],
  [1, 2.52, 0.3, 70],
  [1, 3, 0.3, 92],
  [1, 4.01, 0.3, 74],
  [2, 0.98, 0.9, 108],
  [2, 2.5, 0.28, 68],
  [2, 3.03, 0.32, 90],
  [2, 4.5, 1.3, 98],
  [3, 2.5, 0.3, 72],
  [3, 3.02, 0.3, 94],
  [3, 3.98, 0.3, 76],
  [4, 1.01, 0.9, 110],
  [4, 2.5, 0.4, 80],
  [4, 3, 1.9, 116],
];

/** The recorded rhythm as a Standard MIDI File of format 0: one drum. */
export function demoRhythm(): Uint8Array {
  const at = (bar: number, beat: number) => Math.round(((bar - 1) * 4 + beat - 1) * ppq);
  const drum = { channel: 9, noteNumber: 38 } as const;
  const timed = strokes.flatMap(([bar, beat, beats, velocity]) => [
    { tick: at(bar, beat), event: { type: 'noteOn', ...drum, velocity } as const },
    {
      tick: at(bar, beat) + Math.round(beats * ppq),
      event: { type: 'noteOff', ...drum, velocity: 64 } as const,
    },
  ]);
  timed.sort((a, b) => a.tick - b.tick);
  let before = 0;
  const played = timed.map(({ tick, event }): MidiEvent => {
    const deltaTime = tick - before;
    before = tick;
    return { deltaTime, ...event };
  });
  const head: MidiEvent[] = [
    { deltaTime: 0, meta: true, type: 'trackName', text: 'Boots' },
    { deltaTime: 0, meta: true, type: 'setTempo', microsecondsPerBeat: 600_000 },
    {
      deltaTime: 0,
      meta: true,
      type: 'timeSignature',
      numerator: 4,
      denominator: 4,
      metronome: 24,
      thirtyseconds: 8,
    },
  ];
  const end: MidiEvent = { deltaTime: 0, meta: true, type: 'endOfTrack' };
  const track = [...head, ...played, end];
  return Uint8Array.from(
    writeMidi({ header: { format: 0, numTracks: 1, ticksPerBeat: ppq }, tracks: [track] }),
  );
}
