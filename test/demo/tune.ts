import { type MidiEvent, writeMidi } from 'midi-file';

/** Ticks of a quarter note in the demo recording. */
export const ppq = 480;

/** Where a note stands (bar and beat from 1), its pitch, its length in beats, velocity; beats may be fractions. */
type Played = readonly [bar: number, beat: number, pitch: number, beats: number, velocity: number];

const third = 1 / 3;

/**
 * "Last Boat to Skerry Point": a line for horns. The night ferry leaves the harbour (bars 1–4), slips past the
 * breakwater in the dark (three silent bars), and sounds its horn far out, muted by fog (bars 8–12).
 */
const line: readonly Played[] = [
  // Bar 1: cast off. A joined, dotted figure.
  [1, 1, 50, 1.6, 74],
  [1, 2.5, 52, 0.58, 70],
  [1, 3, 53, 1.85, 80],
  // Bar 2: a dotted eighth and its sixteenth, then two detached quarters.
  [2, 1, 57, 0.62, 86],
  [2, 1.75, 55, 0.16, 78],
  [2, 2, 53, 0.34, 82],
  [2, 3, 52, 0.3, 80],
  // Bar 3: triplets, detached; then a long note.
  [3, 1, 50, 0.2, 76],
  [3, 1 + third, 52, 0.2, 74],
  [3, 1 + 2 * third, 53, 0.21, 78],
  [3, 2, 55, 0.2, 84],
  [3, 2 + third, 53, 0.19, 76],
  [3, 2 + 2 * third, 52, 0.2, 74],
  [3, 3, 50, 1.7, 82],
  // Bar 4: the engine: a run of sixteenths up to a chord.
  [4, 1, 45, 0.11, 84],
  [4, 1.25, 47, 0.11, 82],
  [4, 1.5, 49, 0.12, 86],
  [4, 1.75, 50, 0.11, 84],
  [4, 2, 52, 0.11, 90],
  [4, 2.25, 53, 0.12, 88],
  [4, 2.5, 55, 0.11, 92],
  [4, 2.75, 57, 0.11, 96],
  [4, 3, 50, 1.9, 104],
  [4, 3, 53, 1.88, 100],
  [4, 3, 57, 1.92, 108],
  // Bars 5–7: dark water. Bar 8: far out, slower; joined notes.
  [8, 1, 57, 2.12, 64],
  [8, 3, 58, 2.1, 70],
  [9, 1, 57, 1.1, 66],
  [9, 2, 55, 1.08, 62],
  [9, 3, 53, 1.8, 60],
  // Bar 10: in the fog, with mutes; the text event before it says so.
  [10, 1, 50, 1.5, 90],
  [10, 3, 50, 0.4, 96],
  [10, 4, 50, 0.4, 92],
  // Bar 11: the mutes come out; the ship's horn, twice.
  [11, 1, 45, 1.2, 118],
  [11, 1, 57, 1.2, 120],
  [12, 1, 45, 3.6, 98],
  [12, 1, 50, 3.55, 96],
  [12, 1, 57, 3.6, 104],
];

/** Texts in the line's own track. */
const texts: readonly (readonly [bar: number, beat: number, text: string])[] = [
  [10, 1, '[con sord.]'],
  [11, 1, '[auto]'],
];

/** How far a player strays from the grid, note by note. Unit: ticks (about 1.4 ms). */
const stray = [0, 5, -4, 7, -2, 3, -6, 4, 1, -3, 6, -5, 2, 8, -1];

function tickOf(bar: number, beat: number): number {
  return Math.round(((bar - 1) * 4 + (beat - 1)) * ppq);
}

interface Timed {
  readonly tick: number;
  readonly event: Omit<MidiEvent, 'deltaTime'> & { readonly type: MidiEvent['type'] };
}

/** The recording as a format 1 file: a conductor track, then the horns. */
export function demoRecording(): Uint8Array {
  const conductor: Timed[] = [
    { tick: 0, event: meta('trackName', { text: 'Last Boat to Skerry Point' }) },
    {
      tick: 0,
      event: meta('timeSignature', { numerator: 4, denominator: 4, metronome: 24, thirtyseconds: 8 }),
    },
    { tick: 0, event: meta('setTempo', { microsecondsPerBeat: 652_174 }) },
    { tick: 0, event: meta('marker', { text: 'harbour' }) },
    { tick: tickOf(5, 1), event: meta('marker', { text: 'dark water' }) },
    { tick: tickOf(8, 1), event: meta('setTempo', { microsecondsPerBeat: 800_000 }) },
  ];
  const horns: Timed[] = [
    { tick: 0, event: meta('trackName', { text: 'Horns' }) },
    ...texts.map(([bar, beat, text]) => ({ tick: tickOf(bar, beat) - 40, event: meta('text', { text }) })),
    ...swell(),
    ...line.flatMap(([bar, beat, pitch, beats, velocity], index): Timed[] => {
      const tick = Math.max(0, tickOf(bar, beat) + (stray[index % stray.length] ?? 0));
      const off = tick + Math.round(beats * ppq);
      return [
        { tick, event: { type: 'noteOn', channel: 0, noteNumber: pitch, velocity } as Timed['event'] },
        {
          tick: off,
          event: { type: 'noteOff', channel: 0, noteNumber: pitch, velocity: 64 } as Timed['event'],
        },
      ];
    }),
  ];
  const header = { format: 1 as const, numTracks: 2, ticksPerBeat: ppq };
  return Uint8Array.from(writeMidi({ header, tracks: [inOrder(conductor), inOrder(horns)] }));
}

/** The recorded dynamics: the modulation wheel, up through bar 4 and down over the water. */
function swell(): readonly Timed[] {
  const points: Timed[] = [];
  for (let beat = 0; beat < 48; beat++) {
    const value = Math.round(64 + 34 * Math.sin(((beat - 4) / 24) * Math.PI));
    const tick = beat * ppq;
    points.push({
      tick,
      event: { type: 'controller', channel: 0, controllerType: 1, value } as Timed['event'],
    });
  }
  return points;
}

function meta(type: MidiEvent['type'], fields: Readonly<Record<string, string | number>>): Timed['event'] {
  return { type, meta: true, ...fields } as Timed['event'];
}

function inOrder(timed: readonly Timed[]): MidiEvent[] {
  const rank = ({ event }: Timed) => (event.type === 'noteOff' ? 0 : event.type === 'noteOn' ? 2 : 1);
  const sorted = [...timed].sort((a, b) => a.tick - b.tick || rank(a) - rank(b));
  const end = (sorted.at(-1)?.tick ?? 0) + ppq;
  let before = 0;
  return [...sorted, { tick: end, event: meta('endOfTrack', {}) }].map(({ tick, event }) => {
    const deltaTime = tick - before;
    before = tick;
    return { ...event, deltaTime } as MidiEvent;
  });
}
