import {
  type BarRange,
  barRangesOf,
  type Clock,
  channelOf,
  clockOf,
  dataOf,
  type Events,
  endOf,
  firstData,
  isEndOfTrack,
  isNoteOff,
  isNoteOn,
  kindOf,
  metaType,
  type Song,
  statusOf,
  type Track,
  tickOf,
} from '../../midi/index.js';
import { type Axis, type AxisKind, axisOf } from './axis.js';

/** Events of one kind that a track has in one take only. Notes that were decided are told elsewhere. */
export interface EventDifference {
  /** The track, counted from 1, in the second take; in the first where only that has it. */
  readonly track: number;
  readonly name: string;
  /** `controller 1`, `pitch bend`, `tempo`, `notes`. */
  readonly kind: string;
  /** Where there are any; none where the music has no bars. */
  readonly bars: readonly BarRange[];
  /** How many only the first take has, and how many only the second. */
  readonly removed: number;
  readonly added: number;
}

/** The music of a take, and the channels (0–15) of its tracks whose notes were decided: `track channel`. */
export interface TakeSong {
  readonly song: Song;
  readonly decided: ReadonlySet<string>;
}

/** Everything but decided notes in which the tracks of two takes differ, track by track and kind by kind. */
export function eventDifferences(
  first: TakeSong,
  second: TakeSong,
  by: AxisKind,
): readonly EventDifference[] {
  return trackPairs(first.song, second.song).flatMap(([ours, theirs]) => {
    const track = theirs ?? ours;
    if (!track || (ours && theirs && isSame(ours, theirs))) return [];
    const clocks = {
      first: clockOf(first.song, ours?.number ?? 1),
      second: clockOf(second.song, theirs?.number ?? 1),
    };
    const before = eventsOf(ours, first, clocks.first, (tick) => tick);
    const after = eventsOf(theirs, second, clocks.second, axisOf(clocks.first, clocks.second, by).place);
    return kindsIn(before, after).map((difference) => ({
      track: track.number,
      name: track.name,
      ...difference,
    }));
  });
}

/** Tracks by their names; those whose name several have, or none, by their place among these. */
function trackPairs(first: Song, second: Song): readonly (readonly [Track | undefined, Track | undefined])[] {
  const named = (song: Song) => {
    const seen = new Map<string, number>();
    return new Map(
      song.tracks.map((track) => {
        const times = seen.get(track.name) ?? 0;
        seen.set(track.name, times + 1);
        return [`${times} ${track.name}`, track] as const;
      }),
    );
  };
  const [ours, theirs] = [named(first), named(second)];
  const keys = new Set([...ours.keys(), ...theirs.keys()]);
  return [...keys].map((key) => [ours.get(key), theirs.get(key)] as const);
}

/** The same bytes, meant alike, at the same ticks: most tracks of most takes. */
function isSame({ columns: a }: Track, { columns: b }: Track): boolean {
  if (a.length !== b.length || a.bytes.length !== b.bytes.length) return false;
  for (let event = 0; event < a.length; event++)
    if (
      tickOf(a, event) !== tickOf(b, event) ||
      statusOf(a, event) !== statusOf(b, event) ||
      dataOf(a, event) !== dataOf(b, event)
    )
      return false;
  return a.bytes.every((byte, at) => byte === b.bytes[at]);
}

interface Event {
  readonly kind: string;
  readonly bar: number | null;
}

/** Events by all that can be told of them; how often each is there. */
type Counted = Map<string, { readonly event: Event; count: number }>;

function eventsOf(track: Track | undefined, take: TakeSong, clock: Clock, place: Axis): Counted {
  const counted: Counted = new Map();
  if (!track) return counted;
  const { columns } = track;
  for (let event = 0; event < columns.length; event++) {
    const isNote = isNoteOn(columns, event) || isNoteOff(columns, event);
    if (isEndOfTrack(columns, event)) continue;
    if (isNote && take.decided.has(`${track.number} ${channelOf(columns, event)}`)) continue;
    const tick = tickOf(columns, event);
    const bytes = columns.bytes.subarray(dataOf(columns, event), endOf(columns, event));
    const key = `${Math.round(place(tick) * 1000)} ${statusOf(columns, event)} ${bytes.join(' ')}`;
    const known = counted.get(key);
    if (known) known.count += 1;
    else
      counted.set(key, {
        event: { kind: isNote ? 'notes' : kindName(columns, event), bar: clock.position(tick)?.bar ?? null },
        count: 1,
      });
  }
  return counted;
}

function kindsIn(before: Counted, after: Counted): readonly Omit<EventDifference, 'track' | 'name'>[] {
  const found = new Map<string, { removed: number; added: number; bars: number[] }>();
  const tell = (one: Counted, other: Counted, as: 'removed' | 'added') => {
    for (const [key, { event, count }] of one) {
      const more = count - (other.get(key)?.count ?? 0);
      if (more <= 0) continue;
      const kind = found.get(event.kind) ?? { removed: 0, added: 0, bars: [] };
      kind[as] += more;
      if (event.bar !== null) kind.bars.push(event.bar);
      found.set(event.kind, kind);
    }
  };
  tell(before, after, 'removed');
  tell(after, before, 'added');
  return [...found].map(([kind, { removed, added, bars }]) => ({
    kind,
    bars: barRangesOf(bars),
    removed,
    added,
  }));
}

/** Meta events by their types (Standard MIDI File 1.0). */
const metaNames: Readonly<Record<number, string>> = {
  33: 'port',
  81: 'tempo',
  84: 'SMPTE offset',
  88: 'time signature',
  89: 'key signature',
};

function kindName(events: Events, event: number): string {
  switch (kindOf(events, event)) {
    case 0xa0:
      return 'key pressure';
    case 0xb0:
      return `controller ${firstData(events, event)}`;
    case 0xc0:
      return 'program';
    case 0xd0:
      return 'channel pressure';
    case 0xe0:
      return 'pitch bend';
    default: {
      if (statusOf(events, event) !== 0xff) return 'system exclusive';
      const type = metaType(events, event);
      return metaNames[type] ?? (type >= 1 && type <= 15 ? 'text' : 'other');
    }
  }
}
