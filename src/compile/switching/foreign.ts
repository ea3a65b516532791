import { type ArticulationMap, slotOf } from '../../map/index.js';
import type { MidiEvent, Track } from '../../midi/index.js';

/** An event of the input that changes what is in a slot, so that what was sent there no longer holds. */
export interface ForeignWrite {
  readonly index: number;
  readonly tick: number;
  readonly slots: readonly string[];
}

/** Bank select takes effect with the next program change; reset all controllers undoes every controller. */
const bankSelect = [0, 32];
const resetAllControllers = 121;

/** All sound off, all notes off, and the modes that imply it (MIDI 1.0): they let go of keys that are held. */
const allNotesOff = [120, 123, 124, 125, 126, 127];

/** General MIDI System On or Off (universal non-realtime 09), which sets every program and controller of a device anew. */
function isSystemOn(data: ArrayLike<number>): boolean {
  return data[0] === 0x7e && data[2] === 0x09;
}

/** The slots of a map that an event of the input writes to; none for most. */
export function slotWatcher(map: ArticulationMap): (event: MidiEvent) => readonly string[] {
  const controllers = new Map<number, string[]>();
  const programs: string[] = [];
  for (const { switch: messages } of map.articulations.values())
    for (const message of messages) {
      const slot = slotOf(message);
      if (message.kind === 'program' && !programs.includes(slot)) programs.push(slot);
      if (message.kind !== 'controller') continue;
      const slots = controllers.get(message.controller) ?? [];
      if (!slots.includes(slot)) controllers.set(message.controller, [...slots, slot]);
    }
  const isMomentary = map.switching.notes === 'momentary';
  const keys = isMomentary ? slotsOfKeys(map) : [];
  const everyController = [...new Set([...controllers.values()].flat())];
  const everything = [...everyController, ...programs];
  return (event) => {
    if (event.type === 'sysEx') return isSystemOn(event.data) ? everything : [];
    if (event.type === 'programChange') return programs;
    if (event.type !== 'controller') return [];
    if (event.controllerType === resetAllControllers) return everyController;
    if (allNotesOff.includes(event.controllerType)) return keys;
    const own = controllers.get(event.controllerType) ?? [];
    return bankSelect.includes(event.controllerType) ? [...own, ...programs] : own;
  };
}

function slotsOfKeys({ articulations }: ArticulationMap): readonly string[] {
  const messages = [...articulations.values()].flatMap((articulation) => articulation.switch);
  return [...new Set(messages.filter(({ kind }) => kind === 'note').map(slotOf))];
}

/**
 * The foreign writes that reach a channel, in file order.
 *
 * @param copiedFrom the channel whose controllers are copied to this one
 */
export function foreignWrites(
  track: Track,
  channel: number,
  copiedFrom: number,
  slotsWritten: (event: MidiEvent) => readonly string[],
): readonly ForeignWrite[] {
  const writes: ForeignWrite[] = [];
  track.events.forEach((event, index) => {
    if (event.type !== 'controller' && event.type !== 'programChange' && event.type !== 'sysEx') return;
    const isCopied = event.type === 'controller' && event.channel === copiedFrom;
    if (event.type !== 'sysEx' && event.channel !== channel && !isCopied) return;
    const slots = slotsWritten(event);
    if (slots.length > 0) writes.push({ index, tick: track.ticks[index] ?? 0, slots });
  });
  return writes;
}
