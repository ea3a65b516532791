import {
  channelOf,
  EventBuilder,
  type Events,
  firstData,
  isChannelMessage,
  isEndOfTrack,
  kindOf,
  lastAtMost,
  merged,
  metaType,
  metaTypes,
  placesBefore,
  secondData,
  type Track,
  tickOf,
  trackOf,
  withFirstData,
  withoutEvents,
  withSecondData,
} from '../midi/index.js';

/** A controller event to be put in. */
export interface NewController {
  readonly tick: number;
  readonly controller: number;
  /** 0–127. */
  readonly value: number;
}

/** What becomes of the controllers of one channel. */
export interface ChannelEdit {
  /** 0–15. */
  readonly channel: number;
  /** What a controller event becomes, the index of which in the track is given; undefined takes it out. */
  change(controller: number, value: number, index: number): Omit<NewController, 'tick'> | undefined;
  readonly added: readonly NewController[];
}

/**
 * A track with the controllers of some channels edited; everything else stays on its tick, in its order, in its bytes.
 * What is put in stands before the notes of its tick, and behind what sets up a file there (names, texts, system
 * exclusive messages).
 *
 * @returns the same track where nothing changes
 */
export function edited(track: Track, edits: readonly ChannelEdit[]): Track {
  if (edits.length === 0) return track;
  const { columns, number, name } = track;
  const { events, left } = changed(columns, new Map(edits.map((edit) => [edit.channel, edit])));
  const { added, places } = puttingIn(columns, edits);
  if (events === columns && left.length === 0 && places.length === 0) return track;
  const leftOut = new Set(left);
  const kept = left.length === 0 ? events : withoutEvents(events, (event) => leftOut.has(event));
  const keptPlaces = places.map((place) => place - (lastAtMost(left, place - 1) + 1));
  return trackOf(number, name, places.length === 0 ? kept : merged(kept, added, keptPlaces));
}

/** The same events with other controllers and values, and the indices of those that are to be taken out, ascending. */
function changed(
  events: Events,
  edits: ReadonlyMap<number, ChannelEdit>,
): { readonly events: Events; readonly left: readonly number[] } {
  const left: number[] = [];
  const controllers = new Map<number, number>();
  const values = new Map<number, number>();
  for (let event = 0; event < events.length; event++) {
    const edit = kindOf(events, event) === 0xb0 ? edits.get(channelOf(events, event)) : undefined;
    if (!edit) continue;
    const [controller, value] = [firstData(events, event), secondData(events, event)];
    const now = edit.change(controller, value, event);
    if (!now) left.push(event);
    if (now && now.controller !== controller) controllers.set(event, now.controller);
    if (now && now.value !== value) values.set(event, now.value);
  }
  return { events: withSecondData(withFirstData(events, controllers), values), left };
}

/** The events that are to be put in, and for each the index of the event before which it stands. */
function puttingIn(
  events: Events,
  edits: readonly ChannelEdit[],
): { readonly added: Events; readonly places: readonly number[] } {
  const waiting = edits
    .flatMap(({ channel, added }) => added.map((one) => ({ ...one, channel })))
    .sort((a, b) => a.tick - b.tick);
  const { places, ticks } = placesBefore(
    events,
    waiting.map(({ tick }) => tick),
    isBehind,
  );
  const builder = new EventBuilder();
  waiting.forEach(({ tick, channel, controller, value }, index) => {
    builder.message(ticks[index] ?? tick, 0xb0 | channel, controller, value);
  });
  return { added: builder.events(), places };
}

/** Whether what is put in at a tick stands before an event. It would end a channel prefix (Standard MIDI File 1.0). */
function isBehind(events: Events, event: number, tick: number): boolean {
  if (isEndOfTrack(events, event) || tickOf(events, event) > tick) return true;
  const isOfChannel = isChannelMessage(events, event) || metaType(events, event) === metaTypes.channelPrefix;
  return isOfChannel && tickOf(events, event) === tick;
}
