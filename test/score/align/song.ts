// Takes as Standard MIDI Files, for tests.
import { type MidiEvent, writeMidi } from 'midi-file';

/** Onset in ticks of 480 a quarter, and MIDI note. */
export type TakeNote = readonly [number, number];

/** A track for each list of notes, each note 100 ticks long. */
export function songBytes(
  tracks: readonly (readonly TakeNote[])[],
  names: readonly string[] = [],
): Uint8Array {
  const chunks = tracks.map((notes, index) => {
    const timed: { tick: number; event: MidiEvent }[] = notes.flatMap(([tick, noteNumber]) => [
      { tick, event: { deltaTime: 0, type: 'noteOn', channel: 0, noteNumber, velocity: 70 } },
      { tick: tick + 100, event: { deltaTime: 0, type: 'noteOff', channel: 0, noteNumber, velocity: 64 } },
    ]);
    let last = 0;
    const events: MidiEvent[] = timed
      .sort((a, b) => a.tick - b.tick)
      .map(({ tick, event }) => {
        const deltaTime = tick - last;
        last = tick;
        return { ...event, deltaTime };
      });
    const name: MidiEvent[] =
      names[index] === undefined ? [] : [{ deltaTime: 0, meta: true, type: 'trackName', text: names[index] }];
    return [...name, ...events, { deltaTime: 0, meta: true, type: 'endOfTrack' } as const];
  });
  const format = chunks.length > 1 ? 1 : 0;
  return Uint8Array.from(
    writeMidi({ header: { format, numTracks: chunks.length, ticksPerBeat: 480 }, tracks: chunks }),
  );
}
