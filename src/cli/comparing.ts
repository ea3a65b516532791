import type { Command } from 'commander';
import { mapsAlone, twoMaps } from './compared-files.js';
import { formatOption } from './format-option.js';
import type { Io } from './io.js';
import { mapLimit, megabytes, trackOptions } from './options.js';

/** Declares the commands that hold one thing against another: `compare` and `move`. */
export function comparingCommands(
  program: Command,
  io: Io,
  finish: (outcome: Promise<number>) => Promise<void>,
): readonly [compare: Command, move: Command] {
  const compare = trackOptions(program.command('compare'))
    .summary('say which notes change articulation between two maps')
    .description(
      'Says which notes of recordings get another articulation from one map than from another, or from another version ' +
        'of it, and why; without recordings, of the examples in the maps. The exit status is 1 where any note does.',
    )
    .argument('[a.yaml]', 'a map; REVISION:PATH is a version that git keeps, as HEAD~1:maps/horns.yaml')
    .argument('[b.yaml]', 'the map that it is compared with, likewise')
    .argument('[in.mid...]', 'recordings; - reads standard input; with --since, all of these are maps')
    .option(
      '--since <revision>',
      'compare the maps that changed since this and the revision went apart, in the recordings that they play; maps, folders or patterns may follow',
    )
    .option('--music <folder>', 'with --since: where the recordings are (music)')
    .addOption(formatOption())
    .addOption(mapLimit())
    .action((a, b, inputs, options) =>
      finish(
        options.since === undefined
          ? import('./commands/compare.js').then(({ compareCommand }) =>
              compareCommand(twoMaps(a, b, inputs, options), options, io),
            )
          : import('./commands/compare-since.js').then(({ compareSinceCommand }) =>
              compareSinceCommand(mapsAlone([a, b, ...inputs], options), options, io),
            ),
      ),
    );

  const move = program
    .command('move')
    .summary('say what becomes of a part of a cue in another library, and move it')
    .description(
      'Decides a part of a cue by the map that it has and by another one, and says what becomes what, how near that comes, in ' +
        'which bars, what is lost and what no longer fits. With --write the other map is put into the cue, if nothing is wrong.',
    )
    .argument('<cue.yaml>', 'the cue; - reads standard input')
    .option('-p, --part <name>', 'the part')
    .option('--layer <name>', 'a layer of the part, in its place')
    .option('--to <map.yaml>', 'the map that is to play it, below the folder of the cue')
    .option('--write', 'put the map into the cue; comments and order stay')
    .option('--max-midi <MB>', 'read MIDI files up to this size (64)', megabytes)
    .addOption(mapLimit())
    .action((file, options) =>
      finish(import('./commands/move.js').then(({ moveCommand }) => moveCommand(file, options, io))),
    );

  return [compare, move];
}
