import * as packets from './packets.js';
import { scaleUp } from './scale.js';

/** Translates what one channel says in MIDI 1.0; it remembers bank and parameter, which come in several messages there. */
export interface ChannelTranslator {
  /** The packets of a controller; empty where it only prepares others. */
  controller(number: number, value: number): readonly packets.Packet[];
  program(program: number): readonly packets.Packet[];
}

/** Controllers that chose something in MIDI 1.0, and are messages of their own in MIDI 2.0 (M2-104-UM, appendix D). */
const bank = { most: 0, least: 32 };
const data = { most: 6, least: 38 };
const parameter = { assignableLeast: 98, assignableMost: 99, registeredLeast: 100, registeredMost: 101 };
const none = 127;

/** A parameter that data entry is for. */
interface Parameter {
  kind: 'registered' | 'assignable';
  most: number;
  least: number;
}

export function channelTranslator(to: packets.Address): ChannelTranslator {
  let chosen: [number, number] | undefined;
  let entry: Parameter | undefined;
  let coarse = 0;
  const choose = (kind: Parameter['kind'], half: 'most' | 'least', value: number) => {
    const before = entry?.kind === kind ? entry : { most: none, least: none };
    entry = { kind, most: before.most, least: before.least, [half]: value };
    coarse = 0;
  };
  const enter = (value: number): readonly packets.Packet[] => {
    if (!entry || entry.most === none || entry.least === none) return [];
    const write = entry.kind === 'registered' ? packets.registered : packets.assignable;
    return [write(to, entry.most, entry.least, scaleUp(value, 14, 32))];
  };
  const special = new Map<number, (value: number) => readonly packets.Packet[]>([
    [bank.most, (value) => note(() => (chosen = [value, chosen?.[1] ?? 0]))],
    [bank.least, (value) => note(() => (chosen = [chosen?.[0] ?? 0, value]))],
    [parameter.registeredMost, (value) => note(() => choose('registered', 'most', value))],
    [parameter.registeredLeast, (value) => note(() => choose('registered', 'least', value))],
    [parameter.assignableMost, (value) => note(() => choose('assignable', 'most', value))],
    [parameter.assignableLeast, (value) => note(() => choose('assignable', 'least', value))],
    [
      data.most,
      (value) => {
        coarse = value;
        return enter(value * 128);
      },
    ],
    [data.least, (value) => enter(coarse * 128 + value)],
  ]);
  return {
    controller(number, value) {
      const own = special.get(number);
      return own ? own(value) : [packets.controller(to, number, scaleUp(value, 7, 32))];
    },
    program: (program) => [packets.program(to, program, chosen)],
  };
}

/** Something that is only remembered. */
function note(remember: () => unknown): readonly packets.Packet[] {
  remember();
  return [];
}
