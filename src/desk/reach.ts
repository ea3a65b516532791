import { spellPitch } from '../diagnostics/index.js';
import { parsePitch } from '../map/index.js';
import type { Reach } from './movable.js';

/** A value of a bound, taken apart. */
export interface Taken {
  readonly value: string;
  readonly reach: Reach;
}

/** The whole numbers that conditions of a key have, least and most. */
const numbers: Readonly<Record<string, readonly [number, number]>> = {
  velocity: [1, 127],
  leap: [0, 48],
  chord: [1, 16],
  controller: [0, 127],
};

/** Lengths of notes that a bound is moved through, as fractions of a whole note. */
const lengths = [
  ...['1/128', '1/96', '1/64', '1/48', '1/32', '1/24', '3/64', '1/16', '1/12', '3/32', '1/8', '1/6', '3/16'],
  ...['1/4', '1/3', '3/8', '1/2', '2/3', '3/4', '1/1', '3/2', '2/1'],
] as const;

/**
 * What a bound may be moved through; undefined for what is no bound.
 *
 * @param key of the condition
 * @param middleC the octave number that the map prints for MIDI note 60
 */
export function reachOf(key: string, data: unknown, middleC: number): Taken | undefined {
  if (key === 'pitch') return pitchOf(data, middleC);
  if (typeof data === 'number') {
    const [least, most] = numbers[key] ?? [];
    if (least === undefined || most === undefined) return undefined;
    return { value: `${data}`, reach: { least, most: Math.max(most, data), step: 1, unit: '' } };
  }
  if (typeof data !== 'string') return undefined;
  const { value = '', unit = '' } = /^(?<value>\d+(?:\.\d+)?)(?<unit>ms|s|%)$/u.exec(data)?.groups ?? {};
  if (unit !== '') return { value, reach: numberReach(value, unit, key) };
  return /^\d+\/\d+$/u.test(data) ? { value: data, reach: { choices: inOrder(data) } } : undefined;
}

function numberReach(value: string, unit: string, key: string): Reach {
  const now = Number(value);
  const step = 10 ** -(value.split('.')[1]?.length ?? 0);
  switch (unit) {
    case 'ms':
      return { least: 1, most: Math.max(1000, Math.ceil(now / 50) * 100), step, unit };
    case 's':
      return { least: 0.01, most: Math.max(4, Math.ceil(now * 2)), step: Math.min(step, 0.01), unit };
    default:
      return { least: 0, most: key === 'held-share' ? Math.max(200, now) : 100, step, unit };
  }
}

/** What a level is moved through: the ends that a cue may have, by halves where it stands on one. Unit: dB. */
export function levelReach(now: number): Reach {
  return { least: -60, most: 24, step: now * 2 === Math.round(now * 2) ? 0.5 : 0.1, unit: 'dB' };
}

function inOrder(own: string): readonly string[] {
  const size = (text: string) => {
    const [numerator = 1, denominator = 1] = text.split('/').map(Number);
    return numerator / denominator;
  };
  const others = lengths.filter((one) => size(one) !== size(own));
  return [...others, own].sort((a, b) => size(a) - size(b));
}

const middleOctaves = [3, 4, 5] as const;

function pitchOf(data: unknown, middleC: number): Taken | undefined {
  const octave = middleOctaves.find((one) => one === middleC) ?? 4;
  const at = typeof data === 'number' || typeof data === 'string' ? parsePitch(data, octave) : undefined;
  if (at === undefined) return undefined;
  const value = typeof data === 'string' ? data : spellPitch(at, octave);
  const choices = Array.from({ length: 128 }, (_, pitch) =>
    pitch === at ? value : spellPitch(pitch, octave),
  );
  return { value, reach: { choices } };
}
