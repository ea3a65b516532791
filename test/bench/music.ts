import { type MidiData, type MidiEvent, parseMidi, writeMidi } from 'midi-file';

/** A recorded line at 96 ticks a quarter: sixteenths and eighths, joined and detached, with a controller now and then. */
export function recording(notes: number): Uint8Array {
  const events: MidiEvent[] = [];
  for (let index = 0; index < notes; index++) {
    const step = [24, 24, 48, 24, 96, 48][index % 6] ?? 24;
    const held = [8, 12, 50, 26, 70, 30][(index * 7) % 6] ?? 20;
    const down = Math.min(held, step - 1);
    if (index % 8 === 0)
      events.push({ deltaTime: 0, type: 'controller', channel: 0, controllerType: 1, value: index % 128 });
    const noteNumber = 36 + ((index * 5) % 36);
    events.push({ deltaTime: 0, type: 'noteOn', channel: 0, noteNumber, velocity: 60 + (index % 60) });
    events.push({ deltaTime: down, type: 'noteOff', channel: 0, noteNumber, velocity: 0 });
    const last = events.at(-1);
    if (last) events.push({ deltaTime: step - down, type: 'text', meta: true, text: '' });
  }
  const kept = mergeRests(events);
  kept.push({ deltaTime: 0, type: 'endOfTrack', meta: true });
  return Uint8Array.from(
    writeMidi({ header: { format: 0, numTracks: 1, ticksPerBeat: 96 }, tracks: [kept] }),
  );
}

/** Takes the rests' placeholder texts out again, their time going to the next event. */
function mergeRests(events: readonly MidiEvent[]): MidiEvent[] {
  let waiting = 0;
  return events.flatMap((event) => {
    const deltaTime = event.deltaTime + waiting;
    waiting = event.type === 'text' ? deltaTime : 0;
    return event.type === 'text' ? [] : [{ ...event, deltaTime }];
  });
}

/** So many tracks of a recording, a third apart. */
export function tracksOf(count: number, notesEach: number): Uint8Array {
  const { header, tracks } = parseMidi(recording(notesEach));
  const parts = Array.from({ length: count }, (_, at) =>
    (tracks[0] ?? []).map((event) =>
      event.type === 'noteOn' || event.type === 'noteOff'
        ? { ...event, noteNumber: Math.max(0, Math.min(127, event.noteNumber - 6 + (at % 20))) }
        : event,
    ),
  );
  return written({ header: { ...header, format: 1, numTracks: count }, tracks: parts });
}

/** A recording with another event put in before every so many. */
function mixed(notes: number, every: number, made: (index: number) => readonly MidiEvent[]): MidiData {
  const { header, tracks } = parseMidi(recording(notes));
  const events = (tracks[0] ?? []).flatMap((event, index) =>
    index % every === 0 && event.type !== 'endOfTrack' ? [...made(index), event] : [event],
  );
  return { header, tracks: [events] };
}

const written = (data: MidiData, options = {}) => Uint8Array.from(writeMidi(data, options));

/** Chords of four, struck at one instant. */
function chords(notes: number): Uint8Array {
  const { header, tracks } = parseMidi(recording(Math.round(notes / 4)));
  const events = (tracks[0] ?? []).flatMap((event): MidiEvent[] =>
    event.type === 'noteOn' || event.type === 'noteOff'
      ? [0, 4, 7, 12].map((up, at) => ({
          ...event,
          deltaTime: at === 0 ? event.deltaTime : 0,
          noteNumber: event.noteNumber + up,
        }))
      : [event],
  );
  return written({ header, tracks: [events] });
}

/** Shapes of input, each of so many notes. */
export const shapes: readonly { readonly name: string; readonly of: (notes: number) => Uint8Array }[] = [
  { name: 'one track', of: recording },
  {
    name: 'one track, running status',
    of: (notes) => written(parseMidi(recording(notes)), { running: true }),
  },
  { name: 'chords of four', of: chords },
  {
    name: 'a tempo change every 16 events',
    of: (notes) =>
      written(
        mixed(notes, 16, (index) => [
          { deltaTime: 0, type: 'setTempo', meta: true, microsecondsPerBeat: 500_000 + (index % 999) },
        ]),
      ),
  },
  {
    name: 'two controllers to a note',
    of: (notes) =>
      written(
        mixed(notes, 1, (index) => [
          { deltaTime: 0, type: 'controller', channel: 0, controllerType: 11, value: index % 128 },
        ]),
      ),
  },
];
