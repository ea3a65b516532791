/** One Universal MIDI Packet: one to four words of 32 bits (M2-104-UM). */
export type Packet = readonly number[];

/** The longest time that one delta clockstamp can say, in ticks (M2-116-U, 3.2.2). */
export const longestDelta = 0xfffff;

/** Utility messages. */
export const noOperation: Packet = [0];
export const ticksPerQuarter = (ticks: number): Packet => [0x00300000 + ticks];
export const deltaClockstamp = (ticks: number): Packet => [0x00400000 + ticks];

/** Stream messages. */
export const startOfClip: Packet = [0xf0200000, 0, 0, 0];
export const endOfClip: Packet = [0xf0210000, 0, 0, 0];

/** Flex data for a whole group: complete in one packet, addressed to the group. */
const flex = (group: number, status: number, ...words: [number, number, number]): Packet => {
  return [0xd0100000 + group * 0x1000000 + status, ...words];
};

/** A tempo in units of 10 ns a quarter. */
export const tempo = (group: number, tenNanoseconds: number): Packet => flex(group, 0, tenNanoseconds, 0, 0);

/**
 * A time signature.
 *
 * @param power of two: 3 is an eighth
 */
export function timeSignature(group: number, numerator: number, power: number): Packet {
  const thirtySecondsInQuarter = 8;
  return flex(group, 1, numerator * 0x1000000 + power * 0x10000 + thirtySecondsInQuarter * 0x100, 0, 0);
}

/** The head of a MIDI 2.0 channel voice message. */
function voice(status: number, { group, channel }: Address, first = 0, second = 0): number {
  return 0x40000000 + group * 0x1000000 + (status * 16 + channel) * 0x10000 + first * 0x100 + second;
}

/** Where a channel voice message goes, both 0–15. */
export interface Address {
  readonly group: number;
  readonly channel: number;
}

/** Velocity and attribute data have 16 bits. */
export const noteOn = (to: Address, pitch: number, velocity: number, type: number, data: number): Packet => {
  return [voice(0x9, to, pitch, type), velocity * 0x10000 + data];
};
export const noteOff = (to: Address, pitch: number, velocity: number): Packet => {
  return [voice(0x8, to, pitch), velocity * 0x10000];
};

/** All values from here on have 32 bits. */
export const controller = (to: Address, index: number, value: number): Packet => [
  voice(0xb, to, index),
  value,
];
export const registered = (to: Address, bank: number, index: number, value: number): Packet => {
  return [voice(0x2, to, bank, index), value];
};
export const assignable = (to: Address, bank: number, index: number, value: number): Packet => {
  return [voice(0x3, to, bank, index), value];
};
export const registeredPerNote = (to: Address, pitch: number, index: number, value: number): Packet => {
  return [voice(0x0, to, pitch, index), value];
};
export const pitchBend = (to: Address, value: number): Packet => [voice(0xe, to), value];
export const channelPressure = (to: Address, value: number): Packet => [voice(0xd, to), value];
export const keyPressure = (to: Address, pitch: number, value: number): Packet => [
  voice(0xa, to, pitch),
  value,
];

/** A program; its bank's two halves where one was chosen. */
export function program(to: Address, number: number, bank: readonly [number, number] | undefined): Packet {
  const [most, least] = bank ?? [0, 0];
  return [voice(0xc, to, 0, bank ? 1 : 0), number * 0x1000000 + most * 0x100 + least];
}

/** A system exclusive message of 7-bit data, six bytes a packet; without F0 and F7. */
export function systemExclusive(group: number, data: readonly number[]): readonly Packet[] {
  const count = Math.max(1, Math.ceil(data.length / 6));
  return Array.from({ length: count }, (_, index) => {
    const bytes = data.slice(6 * index, 6 * index + 6);
    const form = count === 1 ? 0 : index === 0 ? 1 : index === count - 1 ? 3 : 2;
    const at = (place: number) => bytes[place] ?? 0;
    const head = 0x30000000 + group * 0x1000000 + (form * 16 + bytes.length) * 0x10000;
    return [head + at(0) * 0x100 + at(1), ((at(2) * 256 + at(3)) * 256 + at(4)) * 256 + at(5)];
  });
}
