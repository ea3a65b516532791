/** What a key asks the player for. */
export type Command = 'turn' | 'from-note' | 'mark' | 'unmark' | 'softer' | 'louder';

const keys: Readonly<Record<string, Command>> = {
  h: 'turn',
  Enter: 'from-note',
  b: 'mark',
  u: 'unmark',
  ',': 'softer',
  '.': 'louder',
};

/** The command of a key; none while another key is held with it, so that the browser's own keys stay its own. */
export function commandOf(event: {
  readonly key: string;
  readonly altKey: boolean;
  readonly ctrlKey: boolean;
  readonly metaKey: boolean;
}): Command | undefined {
  if (event.altKey || event.ctrlKey || event.metaKey) return undefined;
  return keys[event.key.length === 1 ? event.key.toLowerCase() : event.key];
}
