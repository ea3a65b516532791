import type { Meaning } from '../map/index.js';
import { attributeOf, noAttribute } from './attribute.js';
import { channelTranslator } from './controllers.js';
import * as packets from './packets.js';
import { scaleUp } from './scale.js';
import type { ClipMessage, ClipNote, ClipPart } from './types.js';

/** A packet on its tick. Of one tick, releases stand first, then other messages, then note-ons. */
export interface Timed {
  readonly tick: number;
  readonly rank: 0 | 1 | 2;
  readonly packets: readonly packets.Packet[];
}

/** Registered controllers of the articulation profile: M2-123-UM 1.0, 8.1; and the per-note one, 8.2. */
const muteType = [0x20, 0x22] as const;
const muteAmount = [0x20, 0x23] as const;
const playingPosition = 0x0c;

/** One of 32 kinds of mute, as the beginning of its range of values. */
const muteStep = 0x08000000;
const most = 0xffffffff;

/** The release velocity of who does not play any (M2-123-UM 1.0, 7.1). */
const usualRelease = 0x8000;

/** All packets of a part, in order. */
export function packetsOf(part: ClipPart): readonly Timed[] {
  const timed = [...messagePackets(part), ...notePackets(part)];
  return timed
    .map((one, index) => ({ one, index }))
    .sort((a, b) => a.one.tick - b.one.tick || a.one.rank - b.one.rank || a.index - b.index)
    .map(({ one }) => one);
}

function messagePackets(part: ClipPart): readonly Timed[] {
  const translate = channelTranslator(part);
  return part.messages.map((message) => {
    const { tick } = message;
    return { tick, rank: 1, packets: translated(message, part, translate) };
  });
}

function translated(
  message: ClipMessage,
  to: packets.Address,
  translate: ReturnType<typeof channelTranslator>,
): readonly packets.Packet[] {
  switch (message.kind) {
    case 'controller':
      return translate.controller(message.number, message.value);
    case 'program':
      return translate.program(message.program);
    case 'bend':
      return [packets.pitchBend(to, scaleUp(message.value, 14, 32))];
    case 'pressure':
      return [packets.channelPressure(to, scaleUp(message.value, 7, 32))];
    case 'key pressure':
      return [packets.keyPressure(to, message.pitch, scaleUp(message.value, 7, 32))];
    case 'sysex':
      return packets.systemExclusive(to.group, message.data);
  }
}

/** Notes, with the mute before each whose mute is another, and their place on the string. */
function notePackets(part: ClipPart): readonly Timed[] {
  const muted = muteKeeper(part);
  const placed = positionKeeper(part);
  const notes = [...part.notes].sort((a, b) => a.tick - b.tick || a.pitch - b.pitch);
  return notes.flatMap(({ tick, endTick, pitch, velocity, releaseVelocity, meaning = {} }): Timed[] => {
    const { articulation, direction } = meaning;
    const plain = { type: 0x10, subclass: 0, variation: 0 };
    const { type, data } =
      articulation || direction ? attributeOf(articulation ?? plain, direction) : attributeFor(meaning);
    const release = releaseVelocity === undefined ? usualRelease : scaleUp(releaseVelocity, 7, 16);
    return [
      ...muted(tick, meaning),
      {
        tick,
        rank: 2,
        packets: [...placed(pitch, meaning), noteOn(part, pitch, velocity, type, data)],
      },
      {
        tick: Math.max(endTick, tick),
        rank: endTick > tick ? 0 : 2,
        packets: [packets.noteOff(part, pitch, release)],
      },
    ];
  });
}

/** A note that is known only to be muted, or near the bridge, is played as usual otherwise. */
function attributeFor({ mute, position: place }: Meaning): { readonly type: number; readonly data: number } {
  return mute === undefined && place === undefined ? noAttribute : { type: 0x10, data: 0 };
}

function noteOn(part: ClipPart, pitch: number, velocity: number, type: number, data: number): packets.Packet {
  return packets.noteOn(part, pitch, scaleUp(velocity, 7, 16), type, data);
}

/** As usual: neither near the bridge nor over the fingerboard (M2-123-UM 1.0, table 20). */
const usualPosition = 0x80000000;

/** A per-note controller stays with its pitch: remembers each pitch's place, and says what changes it. */
function positionKeeper(part: ClipPart): (pitch: number, meaning: Meaning) => readonly packets.Packet[] {
  const inForce = new Map<number, number>();
  return (pitch, { position = usualPosition }) => {
    if (position === (inForce.get(pitch) ?? usualPosition)) return [];
    inForce.set(pitch, position);
    return [packets.registeredPerNote(part, pitch, playingPosition, position)];
  };
}

/** Remembers a channel's mute, and says what changes it. Notes that say nothing of a mute are open. */
function muteKeeper(part: ClipPart): (tick: number, meaning: Meaning) => readonly Timed[] {
  let inForce = '0 1';
  return (tick, { mute = 0, muteAmount: amount = 1 }) => {
    const wanted = `${mute} ${amount}`;
    if (wanted === inForce) return [];
    inForce = wanted;
    // The type sets the amount to all.
    const set = packets.registered(part, ...muteType, mute * muteStep);
    const partly = amount < 1 ? [packets.registered(part, ...muteAmount, Math.round(amount * most))] : [];
    return [{ tick, rank: 1, packets: [set, ...partly] }];
  };
}

/** The last tick at which a part says something. */
export function endOf({ notes, messages }: ClipPart): number {
  const ends = (one: ClipNote) => Math.max(one.tick, one.endTick);
  const last = notes.reduce((tick, one) => Math.max(tick, ends(one)), 0);
  return messages.reduce((tick, one) => Math.max(tick, one.tick), last);
}
