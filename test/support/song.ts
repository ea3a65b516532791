import { type MidiEvent, writeMidi } from 'midi-file';
import { readMidi } from '../../src/midi/read/index.js';
import type { Song } from '../../src/midi/song.js';

/** A note of a test line; ticks from the start. */
export interface TestNote {
  readonly tick: number;
  readonly end: number;
  readonly pitch: number;
  readonly velocity?: number;
  /** 0–15; 0 where it is not given. */
  readonly channel?: number;
}

/** An event with an absolute tick. */
export interface Timed {
  readonly tick: number;
  readonly event: object & { readonly type: MidiEvent['type'] };
}

/** The events of a track: note-offs before other events before note-ons at one tick, closed by an end of track. */
export function trackOf(
  notes: readonly TestNote[],
  others: readonly Timed[] = [],
  name?: string,
): MidiEvent[] {
  const timed: Timed[] = [
    ...(name === undefined
      ? []
      : [{ tick: 0, event: { type: 'trackName', meta: true, text: name } as Timed['event'] }]),
    ...others,
    ...notes.flatMap(({ tick, end, pitch, velocity = 80, channel = 0 }): Timed[] => [
      { tick, event: { type: 'noteOn', channel, noteNumber: pitch, velocity } as Timed['event'] },
      { tick: end, event: { type: 'noteOff', channel, noteNumber: pitch, velocity: 64 } as Timed['event'] },
    ]),
  ];
  const zeroLength = new Set(notes.filter(({ tick, end }) => tick === end).map(({ tick }) => tick));
  const rank = ({ tick, event }: Timed) =>
    event.type === 'noteOff' ? (zeroLength.has(tick) ? 3 : 0) : event.type === 'noteOn' ? 2 : 1;
  const sorted = [...timed].sort((a, b) => a.tick - b.tick || rank(a) - rank(b));
  const end: Timed = {
    tick: sorted.at(-1)?.tick ?? 0,
    event: { type: 'endOfTrack', meta: true } as Timed['event'],
  };
  let before = 0;
  return [...sorted, end].map(({ tick, event }) => {
    const deltaTime = tick - before;
    before = tick;
    return { ...event, deltaTime } as MidiEvent;
  });
}

export interface SongOptions {
  readonly format?: 0 | 1 | 2;
  readonly ppq?: number;
  /** Instead of ppq. */
  readonly smpte?: { readonly framesPerSecond: number; readonly ticksPerFrame: number };
}

/** The bytes of a file with the given tracks. */
export function bytesOf(
  tracks: readonly MidiEvent[][],
  { format = 1, ppq = 480, smpte }: SongOptions = {},
): Uint8Array {
  const division = smpte ?? { ticksPerBeat: ppq };
  return Uint8Array.from(
    writeMidi({ header: { format, numTracks: tracks.length, ...division }, tracks: [...tracks] }),
  );
}

/** A song with the given tracks, read through our reader. */
export function songOf(tracks: readonly MidiEvent[][], options: SongOptions = {}): Song {
  const { value, diagnostics } = readMidi(bytesOf(tracks, options), 'test.mid');
  if (!value) throw new Error(diagnostics.map(({ message }) => message).join('\n'));
  return value;
}

/** A tempo event. */
export function tempoAt(tick: number, bpm: number): Timed {
  const event = { type: 'setTempo' as const, meta: true, microsecondsPerBeat: Math.round(60_000_000 / bpm) };
  return { tick, event };
}

/** A text, marker, lyric or cue point event. */
export function textAt(
  tick: number,
  text: string,
  type: 'text' | 'marker' | 'lyrics' | 'cuePoint' = 'text',
): Timed {
  const event = { type, meta: true, text };
  return { tick, event };
}

/** A controller event on channel 0. */
export function controllerAt(tick: number, controllerType: number, value: number, channel = 0): Timed {
  const event = { type: 'controller' as const, channel, controllerType, value };
  return { tick, event };
}
