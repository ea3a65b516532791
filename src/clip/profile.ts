import { type Address, type Packet, systemExclusive } from './packets.js';

/** M2-123-UM 1.0, table 4: note-on selection of orchestral articulation, version 1.0, level 1. */
const articulationProfile = [0x7e, 0x21, 0x01, 0x01, 0x01];

/** To everybody: four bytes of 7 bits. */
const broadcast = [0x7f, 0x7f, 0x7f, 0x7f];

/**
 * The MIDI-CI message "set profile on" for one channel, from and to everybody, as M2-116-U, 6.2 has it at the head of a
 * clip: universal non-realtime, the channel, MIDI-CI (0D), set profile on (22), version of the message format (02), both
 * MUIDs, the profile, and how many channels (0: one single-channel profile takes no number). The layout behind the
 * version is M2-101-UM 1.2, from memory.
 */
export function setArticulationProfile({ group, channel }: Address): readonly Packet[] {
  const head = [0x7e, channel, 0x0d, 0x22, 0x02];
  return systemExclusive(group, [...head, ...broadcast, ...broadcast, ...articulationProfile, 0, 0]);
}
