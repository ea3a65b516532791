import {
  channelOf,
  type Events,
  firstData,
  isNoteOn,
  isSystemOn,
  kindOf,
  secondData,
} from '../midi/index.js';
import { ChannelState } from './channel-state.js';
import type { Library, Sound } from './library.js';
import { isNote } from './pairs.js';

/**
 * A sampler that plays one library: what it keeps of the events of a track that it hears, for each channel. At first it
 * has just been loaded: nothing latched, no key down, no controller, bank or program known.
 */
export class Sampler {
  readonly #events: Events;
  readonly #sounds: readonly Sound[];
  readonly #channels: readonly ChannelState[];
  readonly #unheard: ChannelState;
  /** What was selected, by what stood in the aspects and what arrived. */
  readonly #known = new Map<string, readonly Sound[]>();

  constructor(library: Library, events: Events) {
    this.#events = events;
    this.#sounds = [...library.sounds.values()];
    this.#unheard = new ChannelState(library);
    this.#channels = Array.from({ length: 16 }, () => new ChannelState(library));
  }

  /** Takes the next event, in file order. Of events without a channel, only a reset of the device changes anything. */
  hear(event: number): void {
    const events = this.#events;
    const state = this.#on(channelOf(events, event));
    const kind = kindOf(events, event);
    const one = firstData(events, event);
    if (kind === 0xb0) state.setController(one, secondData(events, event), event);
    else if (kind === 0xc0) state.setProgram(one, event);
    else if (isNoteOn(events, event)) state.strike(one, event);
    else if (isNote(events, event)) state.release(one);
    else if (isSystemOn(events, event)) for (const each of this.#channels) each.forget();
  }

  /** The index of the event that put there what stands in an aspect of a channel (0–15); −1 where nothing does. */
  since(channel: number, aspect: number): number {
    return this.#on(channel).since(aspect);
  }

  /** The switch keys that are down on a channel. */
  down(channel: number): ReadonlySet<number> {
    return this.#on(channel).down;
  }

  /** Whether the state of a channel selects a sound for a note that arrives there: its note-on. */
  selects(noteOn: number, { channel, key, velocities, needs }: Sound): boolean {
    const events = this.#events;
    if (channel !== channelOf(events, noteOn)) return false;
    if (key !== undefined && key !== firstData(events, noteOn)) return false;
    const velocity = secondData(events, noteOn);
    if (velocities && (velocity < velocities[0] || velocity > velocities[1])) return false;
    const state = this.#on(channel);
    for (const { aspect, content } of needs) if (state.content(aspect) !== content) return false;
    return true;
  }

  /** All sounds that it selects, those first that need most. */
  selected(noteOn: number): readonly Sound[] {
    const channel = channelOf(this.#events, noteOn);
    const [pitch, velocity] = [firstData(this.#events, noteOn), secondData(this.#events, noteOn)];
    const key = `${channel} ${pitch} ${velocity} ${this.#on(channel).text()}`;
    const before = this.#known.get(key);
    if (before) return before;
    const found = this.#sounds
      .filter((sound) => this.selects(noteOn, sound))
      .sort((a, b) => b.needs.length - a.needs.length);
    this.#known.set(key, found);
    return found;
  }

  #on(channel: number): ChannelState {
    return this.#channels[channel] ?? this.#unheard;
  }
}
