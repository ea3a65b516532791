import type { Outcome } from '../../diagnostics/index.js';
import {
  EventBuilder,
  type Events,
  isEndOfTrack,
  isNoteOn,
  merged,
  metaTypes,
  placesBefore,
  type Song,
  type TrackChange,
  tickOf,
  writeMidi,
} from '../../midi/index.js';
import type { Edit } from './edits.js';

/**
 * A take with texts put into it. Nothing else changes: every event keeps its tick, its order and its bytes. A text stands
 * before the onsets of its tick and behind the releases.
 */
export function insertTexts(song: Song, edits: readonly Edit[]): Outcome<Uint8Array> {
  const changed = new Map<number, TrackChange>();
  for (const { number, columns } of song.tracks) {
    const mine = edits.filter(({ track }) => track === number);
    if (mine.length > 0) changed.set(number, { events: woven(columns, mine) });
  }
  return writeMidi(song, changed);
}

function woven(events: Events, edits: readonly Edit[]): Events {
  const inOrder = [...edits].sort((a, b) => a.tick - b.tick);
  // Texts behind the end stand at it.
  const { places, ticks } = placesBefore(
    events,
    inOrder.map(({ tick }) => tick),
    isBehind,
  );
  const builder = new EventBuilder();
  inOrder.forEach(({ tick, text }, index) => {
    builder.meta(ticks[index] ?? tick, metaTypes.text, new TextEncoder().encode(text));
  });
  return merged(events, builder.events(), places);
}

/** Whether a text at a tick stands before an event. */
function isBehind(events: Events, event: number, tick: number): boolean {
  if (isEndOfTrack(events, event)) return true;
  const at = tickOf(events, event);
  return at > tick || (at === tick && isNoteOn(events, event));
}
