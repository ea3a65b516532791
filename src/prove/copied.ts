import { type Events, kindOf } from '../midi/index.js';

/** Whether an event goes to every channel that a part uses: a controller, a bend, pressure on a key or a channel. */
export function isCopied(events: Events, event: number): boolean {
  const kind = kindOf(events, event);
  return kind === 0xa0 || kind === 0xb0 || kind === 0xd0 || kind === 0xe0;
}
