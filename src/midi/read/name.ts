import { type Events, longData, metaType, metaTypes, nextMeta } from '../events/index.js';

/** The first track name event, decoded as UTF-8, or as Latin-1 where it is not that; '' where there is none. */
export function trackName(events: Events): string {
  for (let event = nextMeta(events, 0); event >= 0; event = nextMeta(events, event + 1))
    if (metaType(events, event) === metaTypes.trackName) return decodedText(longData(events, event));
  return '';
}

/** The text of a meta event: UTF-8, or Latin-1 where it is not that. */
export function decodedText(bytes: Uint8Array): string {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    // Latin-1 proper: a byte is its code point. The decoder of that name would give Windows-1252.
    return Array.from(bytes, (byte) => String.fromCharCode(byte)).join('');
  }
}
