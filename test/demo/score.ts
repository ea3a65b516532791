import { type MidiEvent, writeMidi } from 'midi-file';

const ppq = 480;

/** Bar and beat from 1, MIDI note, length in beats, velocity; beats may be fractions. */
type Played = readonly [bar: number, beat: number, pitch: number, beats: number, velocity: number];

interface Player {
  readonly name: string;
  readonly notes: readonly Played[];
  readonly texts?: readonly (readonly [bar: number, beat: number, text: string])[];
  /** A wheel that swells over the piece. */
  readonly hasWheel?: boolean;
}

/** Casting off (bars 1–4), dark water (5–8), the horn in the fog (9–12). */
const horns: readonly Played[] = [
  [1, 1, 50, 1.1, 74],
  [1, 2, 53, 1.1, 78],
  [1, 3, 57, 1.8, 86],
  [2, 1, 55, 0.3, 98],
  [2, 2, 53, 0.3, 99],
  [2, 3, 50, 1.8, 88],
  [3, 1, 48, 1.1, 80],
  [3, 2, 50, 1.1, 84],
  [3, 3, 53, 1.8, 90],
  [4, 1, 50, 0.35, 112],
  [4, 2, 50, 0.35, 108],
  [4, 3, 57, 1.9, 116],
  [9, 1, 45, 3.4, 104],
  [9, 1, 52, 3.4, 100],
  [10, 1, 45, 3.4, 110],
  [10, 1, 53, 3.4, 106],
  [12, 1, 38, 3.8, 92],
  [12, 1, 50, 3.8, 90],
];

const trumpets: readonly Played[] = [
  [4, 1, 69, 0.3, 84],
  [4, 1.5, 69, 0.3, 82],
  [4, 2, 72, 0.3, 88],
  [4, 3, 74, 1.8, 92],
  [7, 3, 67, 1.8, 76],
  [8, 1, 69, 1.8, 80],
  [8, 3, 72, 1.8, 86],
  [9, 1, 76, 3.2, 96],
];

const upper: readonly Played[] = [1, 2, 3, 4, 5, 6, 7, 8].flatMap((bar): readonly Played[] =>
  bar < 5
    ? [0, 0.5, 1, 1.5, 2, 2.5, 3, 3.5].map(
        (at, index) => [bar, 1 + at, 74 + ([0, 3, 7, 3][index % 4] ?? 0), 0.2, 70 + 2 * index] as Played,
      )
    : [
        [bar, 1, 81 - (bar % 3), 1.9, 72],
        [bar, 3, 79 - (bar % 2), 1.7, 66],
      ],
);

const lower: readonly Played[] = upper.map(([bar, beat, pitch, beats, velocity]) => [
  bar,
  beat,
  pitch - 9,
  beats,
  velocity - 6,
]);

const drums: readonly Played[] = [1, 2, 3, 4, 9, 10].flatMap((bar): readonly Played[] => [
  [bar, 1, 36, 0.5, 96],
  [bar, 2.5, 36, 0.5, 70],
  [bar, 4, 38, 0.5, 80],
]);

const players: readonly Player[] = [
  { name: 'Horns', notes: horns, hasWheel: true },
  {
    name: 'Trumpets',
    notes: trumpets,
    texts: [
      [7, 3, '[pp]'],
      [8, 1, '[cresc.]'],
      [9, 1, '[ff]'],
    ],
  },
  {
    name: 'Violins div. 1',
    notes: upper,
    texts: [
      [5, 1, '[trem.]'],
      [7, 1, '[auto]'],
    ],
  },
  { name: 'Violins div. 2', notes: lower },
  { name: 'Drums', notes: drums },
];

/** How far players stray from the grid, note by note. Unit: ticks. */
const stray = [0, 5, -4, 7, -2, 3, -6, 4, 1, -3, 6];

interface Timed {
  readonly tick: number;
  readonly event: Omit<MidiEvent, 'deltaTime'> & { readonly type: MidiEvent['type'] };
}

/** The piece of the demo cue as a format 1 file: a conductor track, then the players. */
export function demoScore(): Uint8Array {
  const conductor = [
    timed(0, { type: 'trackName', meta: true, text: 'Last Boat to Skerry Point' }),
    timed(0, {
      type: 'timeSignature',
      meta: true,
      numerator: 4,
      denominator: 4,
      metronome: 24,
      thirtyseconds: 8,
    }),
    timed(0, { type: 'setTempo', meta: true, microsecondsPerBeat: 714_286 }),
    timed(tickOf(9, 1), { type: 'setTempo', meta: true, microsecondsPerBeat: 800_000 }),
  ];
  const tracks = [conductor, ...players.map(eventsOf)].map(inOrder);
  return Uint8Array.from(
    writeMidi({ header: { format: 1, numTracks: tracks.length, ticksPerBeat: ppq }, tracks }),
  );
}

function eventsOf({ name, notes, texts = [], hasWheel = false }: Player, channel: number): Timed[] {
  const wheel = Array.from({ length: hasWheel ? 96 : 0 }, (_, half) =>
    timed(half * (ppq / 2), {
      type: 'controller',
      channel,
      controllerType: 1,
      value: Math.round(66 + 34 * Math.sin((half / 24) * Math.PI)),
    }),
  );
  return [
    timed(0, { type: 'trackName', meta: true, text: name }),
    ...texts.map(([bar, beat, text]) => timed(tickOf(bar, beat) - 20, { type: 'text', meta: true, text })),
    ...wheel,
    ...notes.flatMap(([bar, beat, noteNumber, beats, velocity], index) => {
      const tick = Math.max(0, tickOf(bar, beat) + (stray[(index + channel) % stray.length] ?? 0));
      return [
        timed(tick, { type: 'noteOn', channel, noteNumber, velocity }),
        timed(tick + Math.round(beats * ppq), { type: 'noteOff', channel, noteNumber, velocity: 64 }),
      ];
    }),
  ];
}

function timed(tick: number, event: Readonly<Record<string, unknown>> & Pick<MidiEvent, 'type'>): Timed {
  return { tick, event: event as unknown as Timed['event'] };
}

function tickOf(bar: number, beat: number): number {
  return Math.round(((bar - 1) * 4 + (beat - 1)) * ppq);
}

function inOrder(events: readonly Timed[]): MidiEvent[] {
  const rank = ({ event }: Timed) => (event.type === 'noteOff' ? 0 : event.type === 'noteOn' ? 2 : 1);
  const sorted = [...events].sort((a, b) => a.tick - b.tick || rank(a) - rank(b));
  const end = timed((sorted.at(-1)?.tick ?? 0) + ppq, { type: 'endOfTrack', meta: true });
  let before = 0;
  return [...sorted, end].map(({ tick, event }) => {
    const deltaTime = tick - before;
    before = tick;
    return { ...event, deltaTime } as MidiEvent;
  });
}
