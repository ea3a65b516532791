/**
 * What an event of a compiled track is: music that was in the input, a switch of the map, a copy of a controller, bend
 * or pressure for another channel, or something that should not be there.
 */
export type Role = 'music' | 'switch' | 'copy' | 'alien';

const names: readonly Role[] = ['alien', 'music', 'switch', 'copy'];

/** What each event of a track is, by index; `alien` where nothing else was said. */
export class Roles {
  readonly #roles: Uint8Array;

  constructor(length: number) {
    this.#roles = new Uint8Array(length);
  }

  set(event: number, role: Role): void {
    this.#roles[event] = names.indexOf(role);
  }

  /** The events of a role, in order. */
  all(role: Role): readonly number[] {
    const sought = names.indexOf(role);
    const events: number[] = [];
    for (let event = 0; event < this.#roles.length; event++)
      if (this.#roles[event] === sought) events.push(event);
    return events;
  }

  of(event: number): Role {
    return names[this.#roles[event] ?? 0] ?? 'alien';
  }
}
