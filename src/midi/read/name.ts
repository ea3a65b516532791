import { type Events, longData, metaType } from '../events/index.js';

/** The first track name event, decoded as UTF-8, or as Latin-1 where it is not that; '' where there is none. */
export function trackName(events: Events): string {
  for (let event = 0; event < events.length; event++)
    if (metaType(events, event) === 0x03) return decode(longData(events, event));
  return '';
}

function decode(bytes: Uint8Array): string {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    // Latin-1 proper: a byte is its code point. The decoder of that name would give Windows-1252.
    return Array.from(bytes, (byte) => String.fromCharCode(byte)).join('');
  }
}
