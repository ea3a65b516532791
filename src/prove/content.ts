import { type Events, firstData, kindOf, messageKind, messageOf, secondData } from '../midi/index.js';

/** What can stand in an aspect, as one number: a key, a controller at a value, a program, a bank. */
export type Content = number;

/** Nothing stands there. */
export const empty: Content = -1;

/** More than one key is down there, so that no single one is meant. */
export const several: Content = -2;

export const contents = {
  key: (key: number): Content => messageOf(0x90, key),
  controller: (number: number, value: number): Content => messageOf(0xb0, number, value),
  program: (number: number): Content => messageOf(0xc0, number),
  /** Of a bank, 128 is a half that is not known. */
  bank: (most: number, least: number): Content => (most << 8) | least,
};

/** A half of a bank that was never set. */
export const unknownBank = 128;

/** What a message puts into aspects, whether a note is struck or released; `empty` where it is no switch of any map. */
export function contentOf(events: Events, event: number): Content {
  switch (kindOf(events, event)) {
    case 0x80:
    case 0x90:
      return contents.key(firstData(events, event));
    case 0xb0:
      return contents.controller(firstData(events, event), secondData(events, event));
    case 0xc0:
      return contents.program(firstData(events, event));
    default:
      return empty;
  }
}

/** Whether what stands in an aspect was put there by a controller. */
export function isOfController(content: Content, controller: number): boolean {
  return content >= 0 && content >> 8 === (0xb000 | controller);
}

export function isOfProgram(content: Content): boolean {
  return content >= 0 && messageKind(content) === 0xc0;
}

/** In a message: `key 24`, `controller 20 at 5`, `program 7`. */
export function contentText(content: Content): string {
  const [one, two] = [(content >> 8) & 0xff, content & 0xff];
  switch (messageKind(content)) {
    case 0x90:
      return `key ${one}`;
    case 0xb0:
      return `controller ${one} at ${two}`;
    case 0xc0:
      return `program ${one}`;
    default:
      return `bank ${one} ${two}`;
  }
}
