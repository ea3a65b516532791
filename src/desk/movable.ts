import type { YamlPath } from '../yaml/index.js';

/** A file of a cue: the cue itself, a map, or what lends to one. */
export interface DeskFile {
  /** As it is called on the desk: from the folder of the cue. */
  readonly name: string;
  readonly text: string;
}

/** What a value may be moved through: numbers, or spellings that stand in an order. */
export type Reach =
  | { readonly least: number; readonly most: number; readonly step: number; readonly unit: string }
  | { readonly choices: readonly string[] };

/** A value of a file that can be moved on the desk. */
export interface Movable {
  /** Names the value as long as it stands where it stands. */
  readonly id: string;
  /** The name of its file. */
  readonly file: string;
  readonly path: YamlPath;
  /** What stands before the value in a sentence: `short: held below`. Safe to show. */
  readonly words: string;
  /** Where it stands: `rule 2`. */
  readonly where: string;
  /** As it is in the file; of a number, without its unit. */
  readonly value: string;
  readonly reach: Reach;
}

/** A value that is to be another; nothing is written by it. */
export interface Moved {
  readonly id: string;
  /** As `value` of the movable. */
  readonly value: string;
}

/** A value with its unit, as the file spells it. */
export function spelled({ reach }: Pick<Movable, 'reach'>, value: string): string {
  return 'choices' in reach ? value : `${value}${unitOf(reach.unit)}`;
}

/** A value in words, for a sentence. */
export function inWords({ reach }: Pick<Movable, 'reach'>, value: string): string {
  return 'choices' in reach ? value : `${value}${reach.unit === 'dB' ? ' dB' : reach.unit}`;
}

/** Decibels are plain numbers in a cue. */
function unitOf(unit: string): string {
  return unit === 'dB' ? '' : unit;
}
