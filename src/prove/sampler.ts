import {
  bankLsb,
  bankMsb,
  isSystemOnObject,
  type MidiEvent,
  resetControllers,
  silencing,
} from '../midi/index.js';
import { bankAspect, contents } from './effects.js';
import type { Library, Sound } from './library.js';

/** What stands in an aspect, and since when. */
export interface Content {
  readonly what: string;
  /** The tick at which it was put there. */
  readonly tick: number;
}

/** A note as it arrives: its channel (0–15), its key, and how hard it was struck. */
export interface Arrival {
  readonly channel: number;
  readonly pitch: number;
  readonly velocity: number;
}

/** A sampler that plays one library: what it keeps of the events that it hears, for each channel. */
export interface Sampler {
  /** Takes the next event, in file order. Of events without a channel, only a reset of the device changes anything. */
  hear(event: MidiEvent, tick: number): void;
  /** What stands in an aspect of a channel (0–15). */
  content(channel: number, aspect: string): Content | undefined;
  /** The switch keys that are down on a channel. */
  down(channel: number): ReadonlySet<number>;
  /** Whether the state of a channel selects a sound for a note that arrives there. */
  selects(arrival: Arrival, sound: Sound): boolean;
  /** The names of all sounds that it selects, those first that need most. */
  selected(arrival: Arrival): readonly string[];
}

interface ChannelState {
  readonly contents: Map<string, Content>;
  /** The keys that are down in the aspects of momentary keys, with the tick at which each was struck. */
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
  const selects = ({ channel, pitch, velocity }: Arrival, sound: Sound) => {
    const state = stateOf(channel);
    const [least, most] = sound.velocities ?? [1, 127];
    return (
      sound.channel === channel &&
      (sound.key === undefined || sound.key === pitch) &&
      velocity >= least &&
      velocity <= most &&
      sound.elements.every(({ aspect, content }) => state.contents.get(aspect)?.what === content)
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
      else if (isSystemOnObject(event)) for (const state of states.values()) forgetAll(library, state);
    },
    content: (channel, aspect) => stateOf(channel).contents.get(aspect),
    down: (channel) => stateOf(channel).down,
    selects,
    selected(arrival) {
      const { channel, pitch, velocity } = arrival;
      const state = stateOf(channel);
      const key = [
        channel,
        pitch,
        velocity,
        ...library.aspects.map((aspect) => state.contents.get(aspect)?.what),
      ].join('\n');
      const before = known.get(key);
      if (before) return before;
      const names = [...library.sounds.values()]
        .filter((sound) => selects(arrival, sound))
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

function strike({ keyAspects, heldAspects }: Library, state: ChannelState, key: number, tick: number): void {
  const aspects = keyAspects.get(key);
  if (!aspects) return;
  state.down.add(key);
  for (const aspect of aspects) {
    if (!heldAspects.has(aspect)) {
      state.contents.set(aspect, { what: contents.key(key), tick });
      continue;
    }
    const keys = state.held.get(aspect) ?? new Map<number, number>();
    state.held.set(aspect, keys.set(key, tick));
    hold(state, aspect);
  }
}

function release({ keyAspects, heldAspects }: Library, state: ChannelState, key: number): void {
  state.down.delete(key);
  for (const aspect of keyAspects.get(key) ?? []) {
    if (!heldAspects.has(aspect)) continue;
    state.held.get(aspect)?.delete(key);
    hold(state, aspect);
  }
}

/** What the keys that are down in an aspect come to: of several at once, no single one is meant. */
function hold({ contents: inAspects, held }: ChannelState, aspect: string): void {
  const keys = [...(held.get(aspect) ?? [])].sort(([a], [b]) => a - b);
  if (keys.length === 0) inAspects.delete(aspect);
  else
    inAspects.set(aspect, {
      what: keys.map(([key]) => contents.key(key)).join(' and '),
      tick: Math.min(...keys.map(([, tick]) => tick)),
    });
}

function setProgram({ programAspects }: Library, state: ChannelState, program: number, tick: number): void {
  for (const aspect of programAspects) {
    state.contents.set(aspect, { what: contents.program(program), tick });
    state.contents.set(bankAspect(aspect), { what: contents.bank(state.most, state.least), tick });
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
  for (const aspect of library.controllerAspects.get(number) ?? [])
    state.contents.set(aspect, { what: contents.controller(number, value), tick });
  if (number === resetControllers) forgetControllers(library, state);
  if (silencing.has(number)) for (const key of [...state.down]) release(library, state, key);
}

/** What they are set to is not certain any more: devices differ in which of them they reset. */
function forgetControllers({ controllerAspects }: Library, { contents: inAspects }: ChannelState): void {
  for (const [number, aspects] of controllerAspects) {
    for (const aspect of aspects)
      if (inAspects.get(aspect)?.what.startsWith(`controller ${number} `)) inAspects.delete(aspect);
  }
}

/** After a reset, what a device holds of controllers, banks and programs is its own; a latched key stays latched. */
function forgetAll(library: Library, state: ChannelState): void {
  forgetControllers(library, state);
  for (const aspect of library.programAspects) {
    if (state.contents.get(aspect)?.what.startsWith('program ')) state.contents.delete(aspect);
    state.contents.delete(bankAspect(aspect));
  }
  state.most = undefined;
  state.least = undefined;
  for (const key of [...state.down]) release(library, state, key);
}
