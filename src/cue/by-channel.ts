import { type Diagnostic, diagnostic, plural, quoted } from '../diagnostics/index.js';
import { isMarkText } from '../map/index.js';
import {
  channelOf,
  clockOf,
  decodedText,
  EventBuilder,
  type Events,
  isChannelMessage,
  isEndOfTrack,
  lastTick,
  longData,
  metaType,
  metaTypes,
  musicPlace,
  type Part,
  partsOf,
  type Song,
  type Track,
  tickOf,
  trackName,
  trackOf,
  withTracks,
} from '../midi/index.js';
import type { PlacedPart } from './plan.js';

/** What was found in a song, and that song; with a track for each channel, where a cue asks for channels. */
export interface ByChannel {
  readonly song: Song;
  readonly placed: readonly PlacedPart[];
  readonly diagnostics: readonly Diagnostic[];
}

/**
 * The song of format 1 that a song of format 0 would have been: a track for each channel that has notes, behind the
 * first, which keeps tempo, signatures, markers and everything else that is of no channel. Only where parts of a cue
 * are chosen by channel and there are several; else the song stays as it is, and so do its bytes.
 *
 * A channel's track has its channel messages, and the texts and exclusives that a channel prefix says are its own
 * (Standard MIDI File 1.0: up to the next channel message or prefix). A mark without a prefix holds for every channel of
 * its track, and stands in each of them, which is told (mark-for-all); so does a port. A track is named as the file names
 * it, else as its part.
 */
export function byChannel(song: Song, placed: readonly PlacedPart[]): ByChannel {
  const [track] = song.tracks;
  const channels = track ? partsOf(track).map(({ channel }) => channel) : [];
  const isAsked = placed.some(({ wanted }) => wanted.channel !== undefined);
  if (song.format !== 0 || song.tracks.length !== 1 || !track || channels.length < 2 || !isAsked)
    return { song, placed, diagnostics: [] };
  const where = destinations(track.columns, new Set(channels));
  const own = (channel: number, number: number) => {
    const name = placed.find(({ parts }) => parts.some((part) => part.channel === channel))?.wanted.name;
    return channelTrack(track.columns, where, channel, number, name ?? `Channel ${channel + 1}`);
  };
  const added = channels.map((channel, index) => own(channel, index + 2));
  const first = newTrack(
    1,
    copied(track.columns, (event) => where[event] === common),
  );
  return {
    song: withTracks(song, new Map([[1, first]]), added),
    placed: placed.map((one) => ({ ...one, parts: one.parts.map((part) => inTrack(part, channels, added)) })),
    diagnostics: forAll(song, track, where, channels.length),
  };
}

/** The names of the channels of a track (0–15) that it names by channel prefixes. */
export function namesByChannel(track: Track): ReadonlyMap<number, string> {
  const { columns } = track;
  const where = destinations(columns, new Set(partsOf(track).map(({ channel }) => channel)));
  const names = new Map<number, string>();
  where.forEach((channel, event) => {
    const isName = channel >= 0 && metaType(columns, event) === metaTypes.trackName && !names.has(channel);
    if (isName) names.set(channel, decodedText(longData(columns, event)));
  });
  return names;
}

/** An event of no channel, and one that stands in every channel's track. */
const common = -1;
const every = -2;

/** For each event the channel (0–15) in whose track it stands, `common` or `every`. */
function destinations(events: Events, channels: ReadonlySet<number>): Int8Array {
  const where = new Int8Array(events.length);
  const known = (channel: number | undefined) =>
    channel !== undefined && channels.has(channel) ? channel : common;
  let prefix = common;
  for (let event = 0; event < events.length; event++) {
    const isMessage = isChannelMessage(events, event);
    if (isMessage) prefix = common;
    else if (metaType(events, event) === metaTypes.channelPrefix) prefix = known(longData(events, event)[0]);
    where[event] = isMessage ? known(channelOf(events, event)) : placeOf(events, event, prefix);
  }
  return where;
}

function placeOf(events: Events, event: number, prefix: number): number {
  if (isPort(events, event)) return every;
  const type = metaType(events, event);
  if (prefix !== common) return type === metaTypes.channelPrefix || isOfPrefix(type) ? prefix : common;
  return isMark(events, event, type) ? every : common;
}

/** Texts, exclusives and what makers keep; tempo and signatures are the whole song's, whatever stands before them. */
function isOfPrefix(type: number): boolean {
  return type === -1 || (type > 0 && type <= metaTypes.lastText) || type === metaTypes.ofMaker;
}

/** A mark that readers look for in a part's own track; markers of the first track hold for every part anyway. */
function isMark(events: Events, event: number, type: number): boolean {
  const isText =
    type > 0 && type <= metaTypes.lastText && type !== metaTypes.trackName && type !== metaTypes.marker;
  return isText && isMarkText(decodedText(longData(events, event)));
}

function channelTrack(
  events: Events,
  where: Int8Array,
  channel: number,
  number: number,
  name: string,
): Track {
  const isOwn = (event: number) => where[event] === channel || where[event] === every;
  const isNamed = Array.from(where).some(
    (to, event) => to === channel && metaType(events, event) === metaTypes.trackName,
  );
  return newTrack(number, copied(events, isOwn, isNamed ? undefined : name));
}

/** The events that are kept, and the end of the track; a name before them, if one is given. */
function copied(events: Events, isKept: (event: number) => boolean, name?: string): Events {
  const builder = new EventBuilder();
  if (name !== undefined) builder.meta(0, metaTypes.trackName, new TextEncoder().encode(name));
  let isClosed = false;
  for (let event = 0; event < events.length; event++) {
    const isEnd = isEndOfTrack(events, event);
    if (!isEnd && !isKept(event)) continue;
    builder.copy(tickOf(events, event), events, event);
    isClosed ||= isEnd;
  }
  if (!isClosed) builder.meta(lastTick(events), metaTypes.endOfTrack, []);
  return builder.events();
}

function newTrack(number: number, events: Events): Track {
  return trackOf(number, trackName(events), events);
}

function inTrack(part: Part, channels: readonly number[], added: readonly Track[]): Part {
  const track = added[channels.indexOf(part.channel)];
  return track ? { ...part, track: track.number, trackName: track.name } : part;
}

/** mark-for-all: what stands in every channel's track, because the file does not say whose it is. */
function forAll(
  song: Song,
  { columns, name, number }: Track,
  where: Int8Array,
  channels: number,
): Diagnostic[] {
  const marks = Array.from(where.keys()).filter((event) => where[event] === every && !isPort(columns, event));
  const [first] = marks;
  if (first === undefined) return [];
  const place = { file: song.file, part: { track: number, trackName: name }, clock: clockOf(song, number) };
  const text = decodedText(longData(columns, first)).trim();
  const others = marks.length === 1 ? 'names' : `and ${plural(marks.length - 1, 'other mark')} name`;
  return [
    diagnostic(
      'mark-for-all',
      musicPlace(place, tickOf(columns, first)),
      `${quoted(text)} ${others} no channel: what is marked so holds for all ${channels} channels`,
      'export the source as format 1, or put a channel prefix (meta event 20h) before each mark',
    ),
  ];
}

function isPort(events: Events, event: number): boolean {
  return metaType(events, event) === metaTypes.port;
}
