import { decibels, exactVelocityOfLevel } from '../../dynamics/index.js';
import type { InstrumentKind } from '../instruments/index.js';

/** Strength of one instrument; of a whole department of strings. */
interface Strength {
  readonly piano: number;
  readonly forte: number;
}

/**
 * After Rimsky-Korsakov, Principles of Orchestration, chapter I, comparison of resonance in orchestral groups
 * (read in two online copies of Agate's translation). In forte a trumpet, trombone or tuba equals two horns; a horn equals two woodwinds; a department of strings
 * (all first violins) equals two woodwinds. In piano all winds are equal, and a department of strings equals one of them.
 * The unit is a woodwind. Percussion, plucked and keyboard instruments are not compared there. The book is in the public
 * domain.
 */
const strengths: Readonly<Record<InstrumentKind, Strength>> = {
  trumpet: { piano: 1, forte: 4 },
  trombone: { piano: 1, forte: 4 },
  tuba: { piano: 1, forte: 4 },
  horn: { piano: 1, forte: 2 },
  woodwind: { piano: 1, forte: 1 },
  strings: { piano: 1, forte: 2 },
};

/** The levels of p and f on the scale of marks, for which the comparison is made. */
const piano = 2;
const forte = 5;

/**
 * The players of each department of strings in an orchestra of medium size, for which the comparison is made (the same
 * book, read: 4 to 6 basses). He equates departments, whatever their number: six cellos are as strong as twelve violins.
 */
export const departments = {
  'violins 1': 12,
  'violins 2': 10,
  violas: 8,
  cellos: 6,
  basses: 5,
} as const;

/** The players of a department that is not known: the mean of those of the medium orchestra, to a whole number. */
export const departmentPlayers = 8;

/** How many players make the department that a name and an instrument say. */
export function departmentOf(name: string, instrument: string | undefined): number {
  const isSecond = /(\b(ii|2|zweite|second[is]?)\b)|\bseconds?\b/iu.test(name);
  if (instrument === 'violin') return departments[isSecond ? 'violins 2' : 'violins 1'];
  if (instrument === 'viola') return departments.violas;
  if (instrument === 'cello') return departments.cellos;
  return instrument === 'double bass' ? departments.basses : departmentPlayers;
}

/**
 * How strong a section is against others at the same dynamic: players times the strength of one. Between piano and
 * forte the ratio changes evenly in dB with the level (so that at mp a third of the way is gone, at mf two thirds): an
 * interpolation of this program. Below piano it is as in piano, above forte as in forte.
 *
 * @param level on the scale of marks: p is 2, f is 5
 * @param department how many players of strings are a whole department
 * @returns in woodwind instruments
 */
export function strengthOf(
  kind: InstrumentKind,
  players: number,
  level: number,
  department: number = departmentPlayers,
): number {
  const share = Math.max(0, Math.min(1, (level - piano) / (forte - piano)));
  const one = strengths[kind];
  const units = kind === 'strings' ? players / department : players;
  return units * one.piano ** (1 - share) * one.forte ** share;
}

/**
 * How loud a section is, so that sections at different dynamics can be compared: its strength as power, and the level
 * as the velocity of its mark by 40 · log10(v/127), which is the same law as for volume (General MIDI level 1 developer
 * guidelines).
 *
 * @param velocity 1–127
 * @returns dB against one woodwind at velocity 127
 */
export function loudnessOf(
  kind: InstrumentKind,
  players: number,
  level: number,
  velocity: number,
  department: number = departmentPlayers,
): number {
  return 10 * Math.log10(strengthOf(kind, players, level, department)) + decibels(velocity);
}

/** The velocity of mf. */
const middle = exactVelocityOfLevel(4);

/**
 * How loud a measured library is: marks of a measured map lie as far from mf as their velocities do by 40 · log10(v/127).
 *
 * @param referenceLevel its loudness at mf. Unit: LUFS
 * @param velocity 1–127
 * @returns LUFS
 */
export function measuredLoudness(referenceLevel: number, velocity: number): number {
  return referenceLevel + decibels(velocity) - decibels(middle);
}
