import { bankLsb, bankMsb, controllerMessage, programMessage } from '../../midi/index.js';
import { refersTo, type Tree } from '../../yaml/index.js';
import { field, listOf, number, type Source } from '../source/index.js';
import type { SwitchKind } from './kind.js';

export interface ProgramMessage {
  readonly kind: 'program';
  readonly program: number;
  /** [most significant (CC 0), least significant (CC 32)]. */
  readonly bank?: readonly [number, number];
  readonly aspect?: string;
}

/** A program, and the bank that is sent before it. */
export const program: SwitchKind<ProgramMessage> = {
  kind: 'program',
  written: {
    is: 'program',
    mayHave: 'with bank, if need be',
    keys: {
      program: refersTo('midi-value', {
        description: "The program's number on the wire, one less than in printed lists.",
      }),
      bank: {
        description: `The bank sent before the program: most significant (controller ${bankMsb}) and least significant (controller ${bankLsb}).`,
        type: 'array',
        items: refersTo('midi-value'),
        minItems: 2,
        maxItems: 2,
      },
    },
    needs: { bank: ['program'] },
  },
  read: (source, tree, aspect) => {
    const of = number(source, field(tree, 'program'));
    if (of === undefined) return undefined;
    return { kind: 'program', program: of, ...bank(source, field(tree, 'bank')), ...aspect };
  },
  taken: () => ({}),
  aspect: () => 'program',
  formatAspect: () => 'the program',
  subject: () => 'program',
  identity: (message) => `program ${message.program} ${message.bank?.join(' ') ?? ''}`,
  covers: (one, other) =>
    one.program === other.program && (!other.bank || String(one.bank) === String(other.bank)),
  setsMore: (one, other) => one.bank !== undefined && other.bank === undefined,
  isLasting: () => true,
  sends: (message, channel) => [
    ...(message.bank
      ? [
          controllerMessage(channel, bankMsb, message.bank[0]),
          controllerMessage(channel, bankLsb, message.bank[1]),
        ]
      : []),
    programMessage(channel, message.program),
  ],
  writers: () => ['program', `controller ${bankMsb}`, `controller ${bankLsb}`, 'system on'],
  formatShort: (message) =>
    message.bank
      ? `program ${message.program}, bank ${message.bank.join('/')}`
      : `program ${message.program}`,
  format: (message) =>
    `program ${message.program}${message.bank ? ` of bank ${message.bank.join(' ')}` : ''}`,
};

function bank(source: Source, tree: Tree | undefined): Pick<ProgramMessage, 'bank'> {
  const [most, least] = listOf(tree).map((half) => number(source, half));
  return most === undefined || least === undefined ? {} : { bank: [most, least] };
}
