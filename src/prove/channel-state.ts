import { bankLsb, bankMsb, resetControllers, silencing } from '../midi/index.js';
import {
  type Content,
  contents,
  empty,
  isOfController,
  isOfProgram,
  several,
  unknownBank,
} from './content.js';
import type { Library } from './library.js';

/** What a sampler keeps of one channel. Aspects are indices of the library's, and times the indices of events. */
export class ChannelState {
  readonly #library: Library;
  readonly #contents: Int32Array;
  readonly #since: Int32Array;
  /** The keys that are down in the aspects of momentary keys, with the event that struck each. */
  readonly #held = new Map<number, Map<number, number>>();
  readonly #down = new Set<number>();
  #most = unknownBank;
  #least = unknownBank;
  #text: string | undefined;

  constructor(library: Library) {
    this.#library = library;
    this.#contents = new Int32Array(library.aspects.length).fill(empty);
    this.#since = new Int32Array(library.aspects.length).fill(-1);
  }

  content(aspect: number): Content {
    return this.#contents[aspect] ?? empty;
  }

  /** The event that put there what stands in an aspect; −1 where nothing does. */
  since(aspect: number): number {
    return this.#since[aspect] ?? -1;
  }

  /** The switch keys that are down. */
  get down(): ReadonlySet<number> {
    return this.#down;
  }

  /** What stands in all aspects, as a text that tells states apart. */
  text(): string {
    this.#text ??= this.#contents.join(' ');
    return this.#text;
  }

  strike(key: number, event: number): void {
    const { keyAspects, heldAspects } = this.#library;
    const aspects = keyAspects.get(key);
    if (!aspects) return;
    this.#down.add(key);
    for (const aspect of aspects) {
      if (!heldAspects.has(aspect)) {
        this.#put(aspect, contents.key(key), event);
        continue;
      }
      const keys = this.#held.get(aspect) ?? new Map<number, number>();
      this.#held.set(aspect, keys.set(key, event));
      this.#hold(aspect, keys);
    }
  }

  release(key: number): void {
    this.#down.delete(key);
    for (const aspect of this.#library.keyAspects.get(key) ?? none) {
      const keys = this.#held.get(aspect);
      if (!keys) continue;
      keys.delete(key);
      this.#hold(aspect, keys);
    }
  }

  setProgram(program: number, event: number): void {
    for (const { program: aspect, bank } of this.#library.programAspects) {
      this.#put(aspect, contents.program(program), event);
      if (bank !== undefined) this.#put(bank, contents.bank(this.#most, this.#least), event);
    }
  }

  setController(controller: number, value: number, event: number): void {
    if (controller === bankMsb) this.#most = value;
    if (controller === bankLsb) this.#least = value;
    for (const aspect of this.#library.controllerAspects.get(controller) ?? none)
      this.#put(aspect, contents.controller(controller, value), event);
    if (controller === resetControllers) this.#forgetControllers();
    if (silencing.has(controller)) for (const key of [...this.#down]) this.release(key);
  }

  /** After a reset, what a device holds of controllers, banks and programs is its own; a latched key stays latched. */
  forget(): void {
    this.#forgetControllers();
    for (const { program, bank } of this.#library.programAspects) {
      if (isOfProgram(this.content(program))) this.#put(program, empty, -1);
      if (bank !== undefined) this.#put(bank, empty, -1);
    }
    this.#most = unknownBank;
    this.#least = unknownBank;
    for (const key of [...this.#down]) this.release(key);
  }

  /** What they are set to is not certain any more: devices differ in which of them they reset. */
  #forgetControllers(): void {
    for (const [controller, aspects] of this.#library.controllerAspects)
      for (const aspect of aspects)
        if (isOfController(this.content(aspect), controller)) this.#put(aspect, empty, -1);
  }

  /** What the keys that are down in an aspect come to: of several at once, no single one is meant. */
  #hold(aspect: number, keys: ReadonlyMap<number, number>): void {
    this.#put(aspect, keys.size === 0 ? empty : several, -1);
    if (keys.size === 1) for (const [key, event] of keys) this.#put(aspect, contents.key(key), event);
  }

  #put(aspect: number, content: Content, event: number): void {
    this.#contents[aspect] = content;
    this.#since[aspect] = event;
    this.#text = undefined;
  }
}

const none: readonly number[] = [];
