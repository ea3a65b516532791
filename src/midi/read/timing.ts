import { signatureOf, tempoOf } from '../clock/index.js';
import type { MidiEvent, Track } from '../song.js';
import { type Problem, warningAt } from './problem.js';
import type { MetaEvent } from './walk.js';

/** A kind of event that sets the clock. */
interface Kind {
  readonly type: number;
  readonly name: string;
  readonly read: (event: MidiEvent) => unknown;
  readonly hint: string;
}

const kinds: readonly Kind[] = [
  {
    type: 0x51,
    name: 'tempo',
    read: tempoOf,
    hint: 'a tempo is at least 1 microsecond to the quarter note, in three bytes',
  },
  {
    type: 0x58,
    name: 'time signature',
    read: signatureOf,
    hint: 'a time signature has at least 1 beat to the bar, and beats of a whole to a 1024th note',
  },
];

/** One warning for the tempos, and one for the time signatures, of a track that mean nothing: at the first of them. */
export function meaningless(track: Track, timing: readonly MetaEvent[]): readonly Problem[] {
  return kinds.flatMap(({ type, name, read, hint }) => {
    const passedOver = timing.filter(({ event: index, type: found }) => {
      const event = track.events[index];
      return found === type && event !== undefined && read(event) === undefined;
    });
    const [first] = passedOver;
    if (!first) return [];
    const others = passedOver.length - 1;
    const rest = others === 0 ? '' : `; so are ${others} more in the track`;
    const message = `in track ${track.number}, a ${name} means nothing and is passed over${rest}`;
    return [warningAt(first.offset, 'midi-tempo', message, hint)];
  });
}
