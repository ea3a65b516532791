import type { ArticulationMap, SwitchMessage } from '../map/index.js';
import { bankLsb, bankMsb } from '../midi/index.js';
import { type Content, contents } from './content.js';

/** One thing that must be so for an articulation to sound: what has to be in an aspect; `empty`: nothing may be. */
export interface Element {
  readonly aspect: string;
  readonly content: Content;
  /** What puts it there: sequencers send all but keys again when playback starts in the middle. */
  readonly by: 'key' | 'controller' | 'program' | 'bank' | 'silence';
}

/** The bank stands beside the program that it came with, so that a switch without bank says nothing about it. */
export function bankAspect(programAspect: string): string {
  return `${programAspect}, bank`;
}

/**
 * What a message does to a library, and what stands in a file where it was sent. This is read from what a map means, and
 * shares nothing with the compiler that is proved by it.
 */
export interface Effect {
  /** Undefined where nothing is put anywhere. */
  readonly aspect?: string;
  readonly elements: readonly Element[];
  /** What is sent, in order, as `contentOf` tells it. */
  readonly sent: readonly Content[];
  /** The switch key; the controller; whether it is a program; the channel (0–15) that notes are sent to. */
  readonly key?: number;
  /** Whether the key works only while it is down. */
  readonly isHeld?: boolean;
  readonly controller?: number;
  readonly isProgram?: boolean;
  readonly channel?: number;
}

export function effectOf(message: SwitchMessage, isMomentary: boolean): Effect {
  switch (message.kind) {
    case 'note': {
      const { key } = message;
      const isHeld = message.held ?? isMomentary;
      const aspect = keyAspect(message.aspect, isHeld);
      const content = contents.key(key);
      return { aspect, key, isHeld, elements: [{ aspect, content, by: 'key' }], sent: [content] };
    }
    case 'controller': {
      const { controller, value } = message;
      const aspect = namedAspect(message.aspect) ?? `controller ${controller}`;
      const content = contents.controller(controller, value);
      return { aspect, controller, elements: [{ aspect, content, by: 'controller' }], sent: [content] };
    }
    case 'program': {
      const aspect = namedAspect(message.aspect) ?? 'program';
      const content = contents.program(message.program);
      const program: Element = { aspect, content, by: 'program' };
      if (!message.bank) return { aspect, isProgram: true, elements: [program], sent: [content] };
      const [most, least] = message.bank;
      return {
        aspect,
        isProgram: true,
        elements: [program, { aspect: bankAspect(aspect), content: contents.bank(most, least), by: 'bank' }],
        sent: [contents.controller(bankMsb, most), contents.controller(bankLsb, least), content],
      };
    }
    case 'channel':
      return { channel: message.channel, elements: [], sent: [] };
  }
}

/** The aspect of the switch keys of a named aspect, or of those that name none. Held keys lie over latched ones. */
export function keyAspect(named: string | undefined, isHeld: boolean): string {
  if (isHeld) return named === undefined ? 'held keys' : `held keys of ${named}`;
  return namedAspect(named) ?? 'keys';
}

function namedAspect(named: string | undefined): string | undefined {
  return named === undefined ? undefined : `aspect ${named}`;
}

/** What all messages of a map do. */
export function effectsOf({ articulations, switching }: ArticulationMap): readonly Effect[] {
  const isMomentary = switching.notes === 'momentary';
  return [...articulations.values()].flatMap(({ switch: messages }) =>
    messages.map((message) => effectOf(message, isMomentary)),
  );
}
