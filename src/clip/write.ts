import { faultsOf } from './checks.js';
import * as packets from './packets.js';
import { endOf, packetsOf, type Timed } from './part.js';
import { setArticulationProfile } from './profile.js';
import type { Clip, WrittenClip } from './types.js';

/** "SMF2CLIP". */
const fileHeader = [0x53, 0x4d, 0x46, 0x32, 0x43, 0x4c, 0x49, 0x50];

const usualTempo = { tick: 0, microsecondsPerQuarter: 500_000 };
const usualSignature = { tick: 0, numerator: 4, denominator: 4 };

/**
 * Writes a MIDI clip file (M2-116-U 1.0; extension .midi2): the file header; "set profile on" for each channel that has
 * a note with an articulation; ticks to a quarter, the first tempo and time signature; start of clip; all messages, each
 * with its delta clockstamp; end of clip. Each note carries its articulation as an attribute (M2-123-UM 1.0). Values of
 * 7 and 14 bits are scaled to 16 and 32 (M2-115-U). The same clip gives the same bytes. Linear but for sorting.
 *
 * Tempo and time signature hold for all groups and are written to the lowest one in use.
 *
 * @returns no bytes where something cannot be written; then every fault is told
 */
export function writeClip(clip: Clip): WrittenClip {
  const diagnostics = faultsOf(clip);
  if (diagnostics.length > 0) return { bytes: undefined, diagnostics };
  const { parts } = clip;
  const group = parts.reduce((lowest, part) => Math.min(lowest, part.group), 15);
  const first = parts.length === 0 ? 0 : group;
  const conducted = conductor(clip, first);
  const words: number[] = [];
  const write = (list: readonly packets.Packet[]) => {
    for (const packet of list) words.push(...packet);
  };
  for (const part of parts)
    if (part.notes.some(({ meaning }) => meaning)) write(setArticulationProfile(part));
  const opening = conducted.filter(({ tick }) => tick <= 0).flatMap((one) => one.packets);
  write([packets.deltaClockstamp(0), packets.ticksPerQuarter(clip.ticksPerQuarter)]);
  for (const packet of opening) write([packets.deltaClockstamp(0), packet]);
  write([packets.deltaClockstamp(0), packets.startOfClip]);
  const end = parts.reduce((tick, part) => Math.max(tick, endOf(part)), clip.endTick);
  let at = 0;
  const say = (tick: number, packet: packets.Packet) => {
    for (; tick - at > packets.longestDelta; at += packets.longestDelta)
      write([packets.deltaClockstamp(packets.longestDelta), packets.noOperation]);
    write([packets.deltaClockstamp(tick - at), packet]);
    at = tick;
  };
  for (const one of inOrder(conducted, parts.map(packetsOf)))
    for (const packet of one.packets) say(one.tick, packet);
  say(Math.max(end, at), packets.endOfClip);
  return { bytes: bytesOf(words), diagnostics };
}

/** Tempos and time signatures, the tempo first where both stand on one tick; the usual ones where none is at the start. */
function conductor({ tempos, signatures }: Clip, group: number): readonly Timed[] {
  const begun = <T extends { readonly tick: number }>(list: readonly T[], usual: T) =>
    (list[0]?.tick ?? 1) > 0 ? [usual, ...list] : list;
  const changes = [
    ...begun(tempos, usualTempo).map(({ tick, microsecondsPerQuarter }): Timed => {
      return { tick, rank: 0, packets: [packets.tempo(group, Math.round(100 * microsecondsPerQuarter))] };
    }),
    ...begun(signatures, usualSignature).map(({ tick, numerator, denominator }): Timed => {
      return { tick, rank: 1, packets: [packets.timeSignature(group, numerator, Math.log2(denominator))] };
    }),
  ];
  return changes.sort((a, b) => a.tick - b.tick || a.rank - b.rank);
}

/**
 * All messages in the order in which they are written: on one tick the conductor's come first, then all releases, all
 * other messages, all note-ons, each in the order of the parts.
 */
function inOrder(conducted: readonly Timed[], parts: readonly (readonly Timed[])[]): readonly Timed[] {
  const all = [
    ...conducted.map((timed, index) => ({ timed, rank: -1, part: -1, index })),
    ...parts.flatMap((list, part) => list.map((timed, index) => ({ timed, rank: timed.rank, part, index }))),
  ];
  return all
    .sort((a, b) => a.timed.tick - b.timed.tick || a.rank - b.rank || a.part - b.part || a.index - b.index)
    .map(({ timed }) => timed);
}

function bytesOf(words: readonly number[]): Uint8Array {
  const bytes = new Uint8Array(fileHeader.length + 4 * words.length);
  bytes.set(fileHeader);
  const view = new DataView(bytes.buffer);
  words.forEach((word, index) => {
    view.setUint32(fileHeader.length + 4 * index, word);
  });
  return bytes;
}
