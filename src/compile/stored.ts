import { type Diagnostic, diagnostic, quoted } from '../diagnostics/index.js';
import {
  clockOf,
  decodedText,
  EventBuilder,
  type Events,
  longData,
  merged,
  metaType,
  metaTypes,
  musicPlace,
  type Part,
  type Song,
  type Track,
  tickOf,
  trackOf,
  withoutEvents,
  withTracks,
} from '../midi/index.js';
import {
  asksForTiming,
  formatStored,
  isStored,
  parseStored,
  type StoredOptions,
  type TimingOptions,
} from '../timing/index.js';

/** What a file says that it was compiled with. */
export interface Stored {
  /** Empty bars before the music. */
  readonly preroll: number;
  /** The texts, in the order of the file. */
  readonly texts: readonly string[];
  timingOf(part: Part): TimingOptions | undefined;
}

/** A song without the texts that say what it was compiled with, and what they say; absent where there are none. */
export interface TakenOut {
  readonly song: Song;
  readonly stored?: Stored;
  /** Warning: unread-options. */
  readonly diagnostics: readonly Diagnostic[];
}

/** A part, and what is asked for its timing. */
interface Asked {
  readonly part: Part;
  readonly timing?: TimingOptions;
}

/** Takes out what a file says that it was compiled with. A song that says nothing is the same song after. */
export function takeStored(song: Song): TakenOut {
  const found = new Map<string, StoredOptions>();
  const texts: string[] = [];
  const diagnostics: Diagnostic[] = [];
  const changed = new Map<number, Track>();
  for (const track of song.tracks) {
    const said = storedIn(track.columns);
    if (said.size === 0) continue;
    const { number, name, columns } = track;
    changed.set(
      number,
      trackOf(
        number,
        name,
        withoutEvents(columns, (event) => said.has(event)),
      ),
    );
    for (const text of said.values()) {
      const options = parseStored(text);
      if (!options) diagnostics.push(unread(song, track, text));
      else {
        found.set(`${track.number} ${options.channel - 1}`, options);
        texts.push(text);
      }
    }
  }
  if (changed.size === 0) return { song, diagnostics };
  const taken = { song: withTracks(song, changed), diagnostics };
  if (found.size === 0) return taken;
  const preroll = Math.max(...[...found.values()].map((options) => options.preroll));
  const timingOf = ({ track, channel }: Part) => found.get(`${track} ${channel}`)?.timing;
  return { ...taken, stored: { preroll, texts, timingOf } };
}

/**
 * A song that says of each part what it is compiled with, as a text at the beginning of its track, behind what sets the
 * track up there. The same song where no part asks for anything.
 */
export function withStored(song: Song, jobs: readonly Asked[], preroll = 0): Song {
  const asking = jobs.filter(({ timing }) => preroll > 0 || (timing && asksForTiming(timing)));
  const changed = new Map<number, Track>();
  for (const track of song.tracks) {
    const own = asking.filter(({ part }) => part.track === track.number);
    if (own.length === 0) continue;
    const builder = new EventBuilder();
    for (const { part, timing } of own) {
      const text = formatStored({ channel: part.channel + 1, preroll, ...(timing ? { timing } : {}) });
      builder.meta(0, metaTypes.text, new TextEncoder().encode(text));
    }
    const { columns } = track;
    const place = behindSetup(columns);
    const events = merged(columns, builder.events(), new Array<number>(own.length).fill(place));
    changed.set(track.number, trackOf(track.number, track.name, events));
  }
  return withTracks(song, changed);
}

/** The index of the first event that is not a meta event at tick 0; an end of track is no set-up. */
function behindSetup(columns: Events): number {
  let event = 0;
  while (event < columns.length && tickOf(columns, event) === 0 && isSetup(metaType(columns, event)))
    event += 1;
  return event;
}

function isSetup(type: number): boolean {
  return type >= 0 && type !== metaTypes.endOfTrack;
}

/** The texts at tick 0 that say what a track was compiled with, by the indices of their events. */
function storedIn(columns: Events): ReadonlyMap<number, string> {
  const found = new Map<number, string>();
  for (let event = 0; event < columns.length && tickOf(columns, event) === 0; event++) {
    if (metaType(columns, event) !== metaTypes.text) continue;
    const text = decodedText(longData(columns, event));
    if (isStored(text)) found.set(event, text);
  }
  return found;
}

/** As much of a text as is shown. Unit: characters. */
const shown = 60;

function unread(song: Song, { number, name }: Track, text: string): Diagnostic {
  const place = { file: song.file, part: { track: number, trackName: name }, clock: clockOf(song, number) };
  const said = text.length > shown ? `${text.slice(0, shown)}…` : text;
  return diagnostic(
    'unread-options',
    musicPlace(place, 0),
    `${quoted(said)} is to say what the track was compiled with, but is not in order`,
    'it is passed over; give the timing options themselves',
  );
}
