/** The new ticks of a track's events that are moved, by index. */
export class EventMoves {
  readonly #ticks: Float64Array;
  readonly #isMoved: Uint8Array;
  #any = false;

  /** @param events how many the track has */
  constructor(events: number) {
    this.#ticks = new Float64Array(events);
    this.#isMoved = new Uint8Array(events);
  }

  /** Whether any is moved. */
  get any(): boolean {
    return this.#any;
  }

  has(event: number): boolean {
    return this.#isMoved[event] === 1;
  }

  /** Where an event is moved to; undefined where it stays. */
  get(event: number): number | undefined {
    return this.has(event) ? this.#ticks[event] : undefined;
  }

  set(event: number, tick: number): void {
    this.#ticks[event] = tick;
    this.#isMoved[event] = 1;
    this.#any = true;
  }
}
