/** Longer texts are held as bytes: `midi-file` spreads a text over the arguments of one call. */
const longestText = 8192;

/** A shorter unit than a 1024th note has no name, and powers of two above 30 do not fit a signed word. */
const shortestUnit = 10;

const lengths: Readonly<Record<number, number>> = {
  0: 2, // sequence number
  32: 1, // channel prefix
  33: 1, // port prefix
  47: 0, // end of track
  81: 3, // tempo
  84: 5, // SMPTE offset
  88: 4, // time signature
  89: 2, // key signature
};

/**
 * Whether `midi-file` reads a meta event and writes the same bytes again. It refuses other lengths than it expects,
 * drops bit 7 of the SMPTE hour, and gives a time signature 8 thirty-seconds where there were 0.
 *
 * @param at the offset of the event's data
 */
export function isFaithful(bytes: Uint8Array, type: number, at: number, length: number): boolean {
  if (type >= 0x01 && type <= 0x07) return length <= longestText;
  const expected = lengths[type];
  if (expected === undefined) return true;
  if (length !== expected) return false;
  if (type === 0x54) return (bytes[at] ?? 0) < 0x80;
  if (type === 0x58) return (bytes[at + 1] ?? 0) <= shortestUnit && bytes[at + 3] !== 0;
  return true;
}
