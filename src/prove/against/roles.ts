/**
 * What an event of a compiled track is: music that was in the input, a switch of the map, a copy of a controller, bend
 * or pressure for another channel, or something that should not be there.
 */
export const role = { alien: 0, music: 1, switch: 2, copy: 3 } as const;

export type Role = (typeof role)[keyof typeof role];

/** What each event of a track is, by index. */
export class Roles {
  readonly #roles: Uint8Array;

  /** @param length how many events there are; all alien until something else is said */
  constructor(length: number) {
    this.#roles = new Uint8Array(length);
  }

  set(event: number, of: Role): void {
    this.#roles[event] = of;
  }

  is(event: number, of: Role): boolean {
    return this.#roles[event] === of;
  }

  /** The events that should not be there, in order. */
  aliens(): readonly number[] {
    const events: number[] = [];
    for (let event = 0; event < this.#roles.length; event++)
      if (this.#roles[event] === role.alien) events.push(event);
    return events;
  }
}
