import { signatureAt, tempoAt } from '../clock/index.js';
import { dataOf, type Events, metaType, nextMeta } from '../events/index.js';
import { type Problem, warningAt } from './problem.js';

/** A kind of event that sets the clock. */
interface Kind {
  readonly type: number;
  readonly name: string;
  readonly read: (events: Events, event: number) => unknown;
  readonly hint: string;
}

const kinds: readonly Kind[] = [
  {
    type: 0x51,
    name: 'tempo',
    read: tempoAt,
    hint: 'a tempo is at least 1 microsecond to the quarter note, in three bytes',
  },
  {
    type: 0x58,
    name: 'time signature',
    read: signatureAt,
    hint: 'a time signature has at least 1 beat to the bar, and beats of a whole to a 1024th note',
  },
];

/**
 * One warning for the tempos, and one for the time signatures, of a track that mean nothing: at the first of them.
 *
 * @param offset where the track's bytes stand in the file
 */
export function meaningless(track: number, events: Events, offset: number): readonly Problem[] {
  return kinds.flatMap(({ type, name, read, hint }) => {
    let first = -1;
    let others = -1;
    for (let event = nextMeta(events, 0); event >= 0; event = nextMeta(events, event + 1)) {
      if (metaType(events, event) !== type || read(events, event) !== undefined) continue;
      if (first < 0) first = event;
      others += 1;
    }
    if (first < 0) return [];
    const rest = others === 0 ? '' : `; so are ${others} more in the track`;
    const message = `in track ${track}, a ${name} means nothing and is passed over${rest}`;
    return [warningAt(offset + dataOf(events, first), 'midi-tempo', message, hint)];
  });
}
