import { type MidiEvent, type Track, trackOfObjects } from '../midi/index.js';

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

type ControllerEvent = Extract<MidiEvent, { readonly type: 'controller' }>;

/**
 * A track with the controllers of some channels edited; everything else stays on its tick, in its order. What is put in
 * stands before the notes of its tick, and behind what sets up a file there (names, texts, system exclusive messages).
 *
 * @returns the same track where nothing changes
 */
export function edited(track: Track, edits: readonly ChannelEdit[]): Track {
  const waiting = edits
    .flatMap(({ channel, added }) => added.map((one) => ({ ...one, channel })))
    .sort((a, b) => a.tick - b.tick);
  const changes = new Map(edits.map((edit) => [edit.channel, edit]));
  const timed: { readonly tick: number; readonly event: MidiEvent }[] = [];
  let isChanged = waiting.length > 0;
  let next = 0;
  track.events.forEach((event, index) => {
    const tick = track.ticks[index] ?? 0;
    for (let one = waiting[next]; one && isDue(one.tick, tick, event); one = waiting[++next])
      timed.push({ tick: Math.min(one.tick, tick), event: controllerEvent(one) });
    const edit = event.type === 'controller' ? changes.get(event.channel) : undefined;
    const kept = edit && event.type === 'controller' ? changed(event, edit, index) : event;
    if (kept !== event) isChanged = true;
    if (kept) timed.push({ tick, event: kept });
  });
  const end = track.ticks.at(-1) ?? 0;
  for (const one of waiting.slice(next))
    timed.push({ tick: Math.max(end, one.tick), event: controllerEvent(one) });
  if (!isChanged) return track;
  const { events, ticks } = inTime(timed);
  return trackOfObjects(track.number, track.name, events, ticks);
}

/** Events with the delta times that their ticks come to. */
export function inTime(
  timed: readonly { readonly tick: number; readonly event: MidiEvent }[],
): Pick<Track, 'events' | 'ticks'> {
  let before = 0;
  const events = timed.map(({ tick, event }) => {
    const deltaTime = tick - before;
    before = tick;
    return event.deltaTime === deltaTime ? event : { ...event, deltaTime };
  });
  return { events, ticks: timed.map(({ tick }) => tick) };
}

function isDue(wanted: number, tick: number, event: MidiEvent): boolean {
  if (event.type === 'endOfTrack') return true;
  return wanted < tick || (wanted === tick && 'channel' in event);
}

function changed(event: ControllerEvent, edit: ChannelEdit, index: number): ControllerEvent | undefined {
  const now = edit.change(event.controllerType, event.value, index);
  if (!now) return undefined;
  if (now.controller === event.controllerType && now.value === event.value) return event;
  return { ...event, controllerType: now.controller, value: now.value };
}

function controllerEvent({
  channel,
  controller,
  value,
}: NewController & { readonly channel: number }): ControllerEvent {
  return { deltaTime: 0, type: 'controller', channel, controllerType: controller, value };
}
