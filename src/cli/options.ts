import { type Command, InvalidArgumentError, Option } from 'commander';
import { parseDuration } from '../map/index.js';
import type { Restate } from './jobs.js';

/** The options of commands that work on parts with their maps. */
export function partOptions(command: Command): Command {
  return trackOptions(command)
    .option(
      '-m, --map <map.yaml>',
      'the map; TRACK=MAP.yaml for one track of several (repeat it)',
      collect,
      [],
    )
    .option(
      '--restate <bars|rest>',
      'send switches again after so many bars (8) or after a rest (2s), whatever the map says',
      restates,
      [],
    )
    .addOption(mapLimit());
}

function restates(text: string, before: readonly Restate[]): readonly Restate[] {
  if (/^[1-9]\d{0,2}$/u.test(text)) return [...before, { everyBars: Number(text) }];
  if (/^(\d{1,6}(\.\d{1,3})?(ms|s)|[1-9]\d{0,2}\/[1-9]\d{0,3})$/u.test(text))
    return [...before, { afterRest: parseDuration(text) }];
  throw new InvalidArgumentError('Give a number of bars (8), or the length of a rest (2s or 1/2).');
}

/** The options that say which notes of a MIDI file are meant. */
export function trackOptions(command: Command): Command {
  return command
    .option(
      '-t, --track <name|number>',
      'the track, by name or counted from 1 (repeat it for several)',
      collect,
      [],
    )
    .option('-c, --channel <1-16>', 'only the notes of this channel', channelNumber)
    .option('--max-midi <MB>', 'read MIDI files up to this size (64)', megabytes)
    .option('--max-events <number>', 'read MIDI files of up to so many events (4000000)', eventCount);
}

/** The option that chooses parts of a cue. */
export function cuePart(): Option {
  return new Option('-p, --part <name>', 'of a cue: only this part (repeat it for several)')
    .argParser(collect)
    .default([]);
}

/** The option that leaves out of a result what it was compiled with. */
export function bare(): Option {
  return new Option(
    '--bare',
    'leave out of the result what it was compiled with; prove then has to be given the timing options',
  );
}

/** The largest map that is read. */
export function mapLimit(): Option {
  return new Option('--max-map <KB>', 'read maps up to this size (256)').argParser(
    (text) => positive(text) * 1024,
  );
}

/** The value of an option that may be repeated. */
export function collect(value: string, before: readonly string[]): readonly string[] {
  return [...before, value];
}

function channelNumber(text: string): number {
  const channel = Number(text);
  if (!Number.isInteger(channel) || channel < 1 || channel > 16)
    throw new InvalidArgumentError('A channel is a number from 1 to 16.');
  return channel;
}

/** A size in MB, in bytes. */
export function megabytes(text: string): number {
  return positive(text) * 1024 * 1024;
}

function eventCount(text: string): number {
  if (!/^[1-9]\d{0,8}$/u.test(text)) throw new InvalidArgumentError('Give a whole number above 0.');
  return Number(text);
}

function positive(text: string): number {
  const value = Number(text);
  if (!(value > 0 && value <= 4096)) throw new InvalidArgumentError('Give a number above 0, up to 4096.');
  return value;
}
