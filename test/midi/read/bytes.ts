/** Bytes from their printed form: `'00 FF 2F 00'`. */
export function bytes(printed: string): Uint8Array {
  return Uint8Array.from(printed.replace(/\s/g, '').match(/../g) ?? [], (pair) => Number.parseInt(pair, 16));
}

/** The printed form of bytes, without spaces. */
export function printed(of: ArrayLike<number>): string {
  return Array.from(of, (byte) => byte.toString(16).toUpperCase().padStart(2, '0')).join('');
}

/** A number as a fixed count of bytes, the most significant first. */
export function big(value: number, count: number): number[] {
  return Array.from({ length: count }, (_, index) => Math.floor(value / 256 ** (count - 1 - index)) % 256);
}

/** A variable-length quantity, by the definition: digits to the base of 128. `digits` pads it with leading zeros. */
export function quantity(value: number, digits = 1): number[] {
  const count = Math.max(digits, value === 0 ? 1 : Math.floor(Math.log2(value) / 7) + 1);
  return Array.from({ length: count }, (_, index) => {
    const digit = Math.floor(value / 128 ** (count - 1 - index)) % 128;
    return index < count - 1 ? digit + 128 : digit;
  });
}

export function chunk(name: string, data: ArrayLike<number>): number[] {
  return [...Array.from(name, (letter) => letter.charCodeAt(0)), ...big(data.length, 4), ...Array.from(data)];
}

export interface FileParts {
  readonly format?: number;
  readonly division?: number;
  /** The number of tracks that the header names. */
  readonly count?: number;
}

/** A Standard MIDI File with the given track bodies. The first event of the first track stands at byte 22. */
export function midi(
  tracks: readonly ArrayLike<number>[],
  { format = 1, division = 480, count }: FileParts = {},
): Uint8Array {
  const header = chunk('MThd', [...big(format, 2), ...big(count ?? tracks.length, 2), ...big(division, 2)]);
  return Uint8Array.from([...header, ...tracks.flatMap((track) => chunk('MTrk', track))]);
}

export const endOfTrack: readonly number[] = [0, 0xff, 0x2f, 0];

/**
 * The worked example of Standard MIDI File 1.0 (RP-001), format 0; from memory, its lengths recomputed. The bytes are what
 * the standard prescribes, which anybody may implement; no text of it is here.
 */
export const workedFormat0 = bytes(`
  4D546864 00000006 0000 0001 0060
  4D54726B 0000003B
  00FF580404021808 00FF510307A120 00C005 00C12E 00C246
  00923060 003C60 60914340 60904C20 8140823040 003C40 00814340 00804C40 00FF2F00`);

/** The same music in format 1. */
export const workedFormat1 = bytes(`
  4D546864 00000006 0001 0004 0060
  4D54726B 00000014 00FF580404021808 00FF510307A120 8300FF2F00
  4D54726B 00000010 00C005 8140904C20 81404C00 00FF2F00
  4D54726B 0000000F 00C12E 60914340 82204300 00FF2F00
  4D54726B 00000015 00C246 00923060 003C60 83003000 003C00 00FF2F00`);

/** The table of variable-length quantities of Standard MIDI File 1.0 (RP-001); from memory. */
export const quantities = [
  [0x00, '00'],
  [0x40, '40'],
  [0x7f, '7F'],
  [0x80, '81 00'],
  [0x2000, 'C0 00'],
  [0x3fff, 'FF 7F'],
  [0x4000, '81 80 00'],
  [0x100000, 'C0 80 00'],
  [0x1fffff, 'FF FF 7F'],
  [0x200000, '81 80 80 00'],
  [0x8000000, 'C0 80 80 00'],
  [0xfffffff, 'FF FF FF 7F'],
] as const;
