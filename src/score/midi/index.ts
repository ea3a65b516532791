// Writes a played score as a Standard MIDI File of format 1, with its marks as texts.
import type { Outcome } from '../../diagnostics/index.js';
import {
  EventBuilder,
  type Events,
  metaTypes,
  newSong,
  releaseVelocity,
  writeMidi,
} from '../../midi/index.js';
import type { Performance, PlayedPart } from '../play/index.js';
import { timeSignatures } from './metres.js';
import { keysOf } from './unison.js';

/** An event at its tick; at one tick lower ranks come first: heads, releases, controllers, texts, onsets. */
interface Placed {
  readonly tick: number;
  readonly rank: number;
  readonly put: (into: EventBuilder) => void;
}

const rank = { head: 0, release: 1, controller: 2, text: 3, onset: 4 };

/** Microseconds of a quarter have three bytes. */
const slowest = 0xffffff;

/**
 * The file's bytes. The first track has tempo and metre, every other one a part of the score. There are no program
 * changes and no volumes: which sound a part has is the map's to say. Its only error is midi-time.
 *
 * @param file the score's name, for messages
 */
export function writePerformance(performance: Performance, file = ''): Outcome<Uint8Array> {
  const { ppq, parts, endTick, title } = performance;
  const song = newSong(file, { kind: 'ppq', ppq }, [
    { name: title, events: eventsOf(conductor(performance), endTick) },
    ...parts.map((part) => ({ name: part.name, events: eventsOf(partEvents(part), endTick) })),
  ]);
  return writeMidi(song, new Map());
}

function conductor(performance: Performance): readonly Placed[] {
  const title = performance.title === '' ? [] : [text(0, rank.head, metaTypes.trackName, performance.title)];
  const metres = timeSignatures(performance).map(({ tick, numerator, denominator }): Placed => {
    const data = [numerator, Math.round(Math.log2(denominator)), 24, 8];
    return { tick, rank: rank.head, put: (into) => into.meta(tick, metaTypes.timeSignature, data) };
  });
  return [...title, ...metres, ...tempi(performance)];
}

/** Of several tempi at one tick the last counts. */
function tempi({ tempi: all }: Performance): readonly Placed[] {
  const byTick = new Map(all.map(({ tick, quartersPerMinute }) => [tick, quartersPerMinute]));
  let before = 0;
  return [...byTick].flatMap(([tick, quartersPerMinute]): readonly Placed[] => {
    const quarter = Math.max(1, Math.min(slowest, Math.round(60_000_000 / quartersPerMinute)));
    if (quarter === before) return [];
    before = quarter;
    const data = [quarter >> 16, (quarter >> 8) & 0xff, quarter & 0xff];
    return [{ tick, rank: rank.head, put: (into) => into.meta(tick, metaTypes.tempo, data) }];
  });
}

function partEvents({ name, channel, notes, texts, controllers }: PlayedPart): readonly Placed[] {
  const message = (tick: number, order: number, kind: number, one: number, two: number): Placed => {
    return { tick, rank: order, put: (into) => into.message(tick, kind | channel, one, two) };
  };
  return [
    text(0, rank.head, metaTypes.trackName, name),
    ...controllers.map(({ tick, number, value }) => message(tick, rank.controller, 0xb0, number, value)),
    ...texts.map((said) => text(said.tick, rank.text, metaTypes.text, said.text)),
    ...keysOf(notes).flatMap(({ tick, endTick, pitch, velocity }) => [
      message(tick, rank.onset, 0x90, pitch, velocity),
      message(endTick, rank.release, 0x80, pitch, releaseVelocity),
    ]),
  ];
}

/** A text in UTF-8. */
function text(tick: number, order: number, type: number, said: string): Placed {
  const bytes = new TextEncoder().encode(said);
  return { tick, rank: order, put: (into) => into.meta(tick, type, bytes) };
}

function eventsOf(list: readonly Placed[], endTick: number): Events {
  const builder = new EventBuilder();
  const sorted = [...list].sort((a, b) => a.tick - b.tick || a.rank - b.rank);
  for (const { put } of sorted) put(builder);
  builder.meta(Math.max(endTick, sorted.at(-1)?.tick ?? 0), metaTypes.endOfTrack, []);
  return builder.events();
}
