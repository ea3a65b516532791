import { type Events, Insertions } from '../events/index.js';
import { Splicer } from './splicer.js';

/** What a track becomes: its events (other ones, or in another order, if they changed), and messages put in. */
export interface TrackChange {
  readonly events: Events;
  readonly insertions?: Insertions;
}

/** A time between two events that no file can say: below 0, or above 0x0FFFFFFF ticks. */
export interface UnwritableTime {
  /** The tick of the event behind it. */
  readonly tick: number;
  /** The tick of the event ahead of it. */
  readonly before: number;
}

/** A track chunk, or why there is none. */
export type TrackChunk = { readonly bytes: Uint8Array } | { readonly unwritable: UnwritableTime };

/** Id and length. */
const head = 8;

const noInsertions = new Insertions();

/**
 * The MTrk chunk of a track, its id and length included. Messages are put in by their place, then tick, then rank; all
 * other events stay in their order, on their ticks, in their bytes (see `Splicer`).
 */
export function trackChunk({ events, insertions = noInsertions }: TrackChange): TrackChunk {
  const splicer = new Splicer(events, head, events.bytes.length + 5 * insertions.length);
  const order = insertions.inOrder(events.length);
  const putIn = (insertion: number) =>
    splicer.message(insertions.tickOf(insertion), insertions.messageOf(insertion));
  let next = 0;
  for (let event = 0; event <= events.length; event++) {
    for (; next < order.length; next++) {
      const insertion = order[next] ?? 0;
      if (event < events.length && insertions.beforeOf(insertion) > event) break;
      if (!putIn(insertion)) return unwritable(insertions.tickOf(insertion), splicer);
    }
    if (event < events.length && !splicer.event(event)) return unwritable(events.ticks[event] ?? 0, splicer);
  }
  const bytes = splicer.bytes();
  bytes.set([0x4d, 0x54, 0x72, 0x6b]);
  new DataView(bytes.buffer, bytes.byteOffset).setUint32(4, bytes.length - head);
  return { bytes };
}

function unwritable(tick: number, { tick: before }: Splicer): TrackChunk {
  return { unwritable: { tick, before } };
}
