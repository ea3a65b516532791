import { bankLsb, bankMsb, isSystemOn, type MidiEvent, resetControllers, silencing } from '../midi/index.js';
import { bankSlot, contents } from './effects.js';
import type { Library, Sound } from './library.js';

/** What stands in a slot, and since when. */
export interface Content {
  readonly what: string;
  /** The tick at which it was put there. */
  readonly tick: number;
}

/** A sampler that plays one library: what it keeps of the events that it hears, for each channel. */
export interface Sampler {
  /** Takes the next event, in file order. Of events without a channel, only a reset of the device changes anything. */
  hear(event: MidiEvent, tick: number): void;
  /** What stands in a slot of a channel (0–15). */
  content(channel: number, slot: string): Content | undefined;
  /** The switch keys that are down on a channel. */
  down(channel: number): ReadonlySet<number>;
  /** Whether the state of a channel selects a sound for a note that arrives there. */
  selects(channel: number, sound: Sound): boolean;
  /** The names of all sounds that it selects, those first that need most. */
  selected(channel: number): readonly string[];
}

interface ChannelState {
  readonly contents: Map<string, Content>;
  /** The keys that are down in the slots of momentary keys, with the tick at which each was struck. */
  readonly held: Map<string, Map<number, number>>;
  readonly down: Set<number>;
  most: number | undefined;
  least: number | undefined;
}

/** A sampler that has just been loaded: nothing latched, no key down, no controller, bank or program known. */
export function samplerOf(library: Library): Sampler {
  const states = new Map<number, ChannelState>();
  const known = new Map<string, readonly string[]>();
  const stateOf = (channel: number) => {
    const state = states.get(channel) ?? freshState();
    states.set(channel, state);
    return state;
  };
  const selects = (channel: number, sound: Sound) => {
    const state = stateOf(channel);
    return (
      sound.channel === channel &&
      sound.elements.every(({ slot, content }) => state.contents.get(slot)?.what === content)
    );
  };
  return {
    hear(event, tick) {
      if (event.type === 'noteOn' && event.velocity > 0)
        strike(library, stateOf(event.channel), event.noteNumber, tick);
      else if (event.type === 'noteOn' || event.type === 'noteOff')
        release(library, stateOf(event.channel), event.noteNumber);
      else if (event.type === 'programChange')
        setProgram(library, stateOf(event.channel), event.programNumber, tick);
      else if (event.type === 'controller')
        setController(library, stateOf(event.channel), event.controllerType, event.value, tick);
      else if (isSystemOn(event)) for (const state of states.values()) forgetAll(library, state);
    },
    content: (channel, slot) => stateOf(channel).contents.get(slot),
    down: (channel) => stateOf(channel).down,
    selects,
    selected(channel) {
      const state = stateOf(channel);
      const key = [channel, ...library.slots.map((slot) => state.contents.get(slot)?.what)].join('\n');
      const before = known.get(key);
      if (before) return before;
      const names = [...library.sounds.values()]
        .filter((sound) => selects(channel, sound))
        .sort((a, b) => b.elements.length - a.elements.length)
        .map(({ name }) => name);
      known.set(key, names);
      return names;
    },
  };
}

function freshState(): ChannelState {
  return { contents: new Map(), held: new Map(), down: new Set(), most: undefined, least: undefined };
}

function strike({ keySlots, isMomentary }: Library, state: ChannelState, key: number, tick: number): void {
  const slots = keySlots.get(key);
  if (!slots) return;
  state.down.add(key);
  for (const slot of slots) {
    if (!isMomentary) {
      state.contents.set(slot, { what: contents.key(key), tick });
      continue;
    }
    const keys = state.held.get(slot) ?? new Map<number, number>();
    state.held.set(slot, keys.set(key, tick));
    hold(state, slot);
  }
}

function release({ keySlots, isMomentary }: Library, state: ChannelState, key: number): void {
  state.down.delete(key);
  if (!isMomentary) return;
  for (const slot of keySlots.get(key) ?? []) {
    state.held.get(slot)?.delete(key);
    hold(state, slot);
  }
}

/** What the keys that are down in a slot come to: of several at once, no single one is meant. */
function hold({ contents: inSlots, held }: ChannelState, slot: string): void {
  const keys = [...(held.get(slot) ?? [])].sort(([a], [b]) => a - b);
  if (keys.length === 0) inSlots.delete(slot);
  else
    inSlots.set(slot, {
      what: keys.map(([key]) => contents.key(key)).join(' and '),
      tick: Math.min(...keys.map(([, tick]) => tick)),
    });
}

function setProgram({ programSlots }: Library, state: ChannelState, program: number, tick: number): void {
  for (const slot of programSlots) {
    state.contents.set(slot, { what: contents.program(program), tick });
    state.contents.set(bankSlot(slot), { what: contents.bank(state.most, state.least), tick });
  }
}

function setController(
  library: Library,
  state: ChannelState,
  number: number,
  value: number,
  tick: number,
): void {
  if (number === bankMsb) state.most = value;
  if (number === bankLsb) state.least = value;
  for (const slot of library.controllerSlots.get(number) ?? [])
    state.contents.set(slot, { what: contents.controller(number, value), tick });
  if (number === resetControllers) forgetControllers(library, state);
  if (silencing.has(number)) for (const key of [...state.down]) release(library, state, key);
}

/** What they are set to is not certain any more: devices differ in which of them they reset. */
function forgetControllers({ controllerSlots }: Library, { contents: inSlots }: ChannelState): void {
  for (const [number, slots] of controllerSlots) {
    for (const slot of slots)
      if (inSlots.get(slot)?.what.startsWith(`controller ${number} `)) inSlots.delete(slot);
  }
}

/** After a reset, what a device holds of controllers, banks and programs is its own; a latched key stays latched. */
function forgetAll(library: Library, state: ChannelState): void {
  forgetControllers(library, state);
  for (const slot of library.programSlots) {
    if (state.contents.get(slot)?.what.startsWith('program ')) state.contents.delete(slot);
    state.contents.delete(bankSlot(slot));
  }
  state.most = undefined;
  state.least = undefined;
  for (const key of [...state.down]) release(library, state, key);
}
