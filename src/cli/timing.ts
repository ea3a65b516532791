import { type Command, InvalidArgumentError, Option } from 'commander';
import { type ArticulationMap, parseDuration } from '../map/index.js';
import {
  defaultSeed,
  type GridWidth,
  type RollOrder,
  rollOrders,
  type TimingOptions,
} from '../timing/index.js';

/** The options that change timing; nothing is changed where none is given. */
export interface TimingFlags {
  readonly compensate?: boolean;
  readonly joins?: boolean;
  readonly preroll?: number;
  readonly pull: readonly Pull[];
  readonly grid?: readonly GridWidth[];
  readonly roll?: number;
  readonly rollOrder?: RollOrder;
  readonly loosen?: number;
  readonly seed?: number;
}

/** How far onsets are pulled, for one role or for all. */
interface Pull {
  readonly role: string | undefined;
  readonly share: number;
}

const roles = ['melody', 'percussion'];

/** Adds the timing options to a command. */
export function timingOptions(command: Command): Command {
  return command
    .optionsGroup('Timing:')
    .option('--compensate', 'start each note earlier by the time that its articulation needs to speak')
    .option(
      '--preroll <bars>',
      'put empty bars before the music, so that nothing has to start before it',
      barCount,
    )
    .option('--joins', 'give joined notes their overlap, and keep to the lengths of the map')
    .option(
      '--pull <share>',
      'pull onsets part of the way to the grid, a chord as one: 60%, or percussion=85% for that role',
      pulls,
      [],
    )
    .option(
      '--grid <fractions>',
      'the grid to pull to, as 1/16 or 1/16,1/12; found from the playing if not given',
      grids,
    )
    .option(
      '--roll <time>',
      'spread chords as several players would: the standard deviation of one player, 18ms (of differences between two players it is 1.4 times as much: 25ms)',
      milliseconds,
    )
    .addOption(
      new Option(
        '--roll-order <order>',
        'the order in which chords are spread; nobody leads, but with top-first',
      ).choices(rollOrders),
    )
    .option(
      '--loosen <time>',
      'move single notes that are too exact off the grid, by up to this standard deviation: 8ms',
      milliseconds,
    )
    .option('--seed <number>', 'another chance for --roll and --loosen', wholeNumber);
}

/** What the options ask of a part, by the role that its map's family has; undefined where they ask nothing. */
export function timingFor(flags: TimingFlags, map: ArticulationMap): TimingOptions | undefined {
  const role = map.family === 'percussion' ? 'percussion' : 'melody';
  const pull =
    flags.pull.findLast((one) => one.role === role) ?? flags.pull.findLast((one) => one.role === undefined);
  const {
    compensate = false,
    joins = false,
    grid,
    roll,
    rollOrder = 'unordered',
    loosen,
    seed = defaultSeed,
  } = flags;
  if (!compensate && !joins && !pull && roll === undefined && loosen === undefined) return undefined;
  return {
    compensate,
    joins,
    ...(pull ? { pull: pull.share } : {}),
    ...(grid ? { grids: grid } : {}),
    ...(roll === undefined ? {} : { roll: { sdMs: roll, order: rollOrder } }),
    ...(loosen === undefined ? {} : { loosenMs: loosen }),
    seed,
  };
}

/** Whether any of these options was given. */
export function asksForTiming({ pull, ...flags }: TimingFlags): boolean {
  const { compensate, joins, preroll, grid, roll, rollOrder, loosen, seed } = flags;
  const given = [compensate, joins, preroll, grid, roll, rollOrder, loosen, seed];
  return pull.length > 0 || given.some((one) => one !== undefined);
}

function pulls(text: string, before: readonly Pull[]): readonly Pull[] {
  const [, role, digits] = /^(?:([a-z]+)=)?(\d{1,3}(?:\.\d+)?)%$/u.exec(text) ?? [];
  const share = Number(digits) / 100;
  if (digits === undefined || share > 1)
    throw new InvalidArgumentError('Write a share as 60%, from 0% to 100%.');
  if (role !== undefined && !roles.includes(role))
    throw new InvalidArgumentError(`Roles are ${roles.join(' and ')}.`);
  return [...before, { role, share }];
}

function grids(text: string): readonly GridWidth[] {
  return text.split(',').map((one) => {
    const [, numerator, denominator] = /^(\d{1,3})\/(\d{1,3})$/u.exec(one.trim()) ?? [];
    const width = { numerator: Number(numerator), denominator: Number(denominator) };
    if (!(width.numerator > 0 && width.denominator > 0))
      throw new InvalidArgumentError('Write grids as fractions of a whole note: 1/16, or 1/16,1/12.');
    return width;
  });
}

/** A time in ms, as options have it. */
export function milliseconds(text: string): number {
  const duration = /^\d{1,4}(\.\d{1,3})?(ms|s)$/u.test(text) ? parseDuration(text) : undefined;
  if (duration?.unit !== 'ms' || duration.ms > 1000)
    throw new InvalidArgumentError('Write a time as 18ms, up to 1s.');
  return duration.ms;
}

function barCount(text: string): number {
  const bars = wholeNumber(text);
  if (bars > 64) throw new InvalidArgumentError('Give up to 64 bars.');
  return bars;
}

/** A whole number from 0 on. */
export function wholeNumber(text: string): number {
  if (!/^\d{1,9}$/u.test(text)) throw new InvalidArgumentError('Give a whole number.');
  return Number(text);
}
