import type { Command } from 'commander';
import type { CompareTakesOptions } from './commands/compare-takes.js';
import { mapsAlone, twoMaps } from './compared-files.js';
import type { ComparedWords } from './compared-kind.js';
import { formatOption } from './format-option.js';
import type { Io } from './io.js';
import { collect, cuePart, mapLimit, megabytes, trackOptions } from './options.js';

type ComparingOptions = CompareTakesOptions & { readonly since?: string; readonly music?: string };

/** Declares the commands that hold one thing against another: `compare` and `move`. */
export function comparingCommands(
  program: Command,
  io: Io,
  finish: (outcome: Promise<number>) => Promise<void>,
): readonly [compare: Command, move: Command] {
  const compare = trackOptions(program.command('compare'))
    .summary('say what differs between two maps, two takes or two cues')
    .description(
      'Says which notes of recordings get another articulation from one map than from another, or from another version ' +
        'of it, and why; without recordings, of the examples in the maps. Maps of two libraries are compared by what their ' +
        'articulations mean. Of two recordings (with --map), of two cues, or of a cue and another take of its music, it says ' +
        'what is played, decided and sent otherwise, bar by bar, and that nothing else is. The exit status is 1 where anything is.',
    )
    .argument(
      '[a]',
      'a map, a cue or a recording; REVISION:PATH is a version that git keeps of a map, as HEAD~1:maps/horns.yaml',
    )
    .argument('[b]', 'what it is compared with, likewise')
    .argument(
      '[in.mid...]',
      'of maps: recordings; - reads standard input; with --since, all of these are maps',
    )
    .option(
      '-m, --map <map.yaml>',
      'of two recordings: the map that plays both; TRACK=MAP.yaml for one track of several (repeat it)',
      collect,
      [],
    )
    .addOption(cuePart())
    .option(
      '--since <revision>',
      'compare the maps that changed since this and the revision went apart, in the recordings that they play; maps, folders or patterns may follow',
    )
    .option('--music <folder>', 'with --since: where the recordings are (music)')
    .addOption(formatOption())
    .addOption(mapLimit())
    .action((a, b, inputs, options) => finish(comparison({ a, b, inputs }, options, io)));

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

/** Maps are compared, takes, or what became of maps since a revision. */
async function comparison(words: ComparedWords, options: ComparingOptions, io: Io): Promise<number> {
  const { a, b, inputs } = words;
  const { since } = options;
  if (since !== undefined) {
    const { compareSinceCommand } = await import('./commands/compare-since.js');
    return compareSinceCommand(mapsAlone([a, b, ...inputs], options), { ...options, since }, io);
  }
  const { areTakes } = await import('./compared-kind.js');
  if ((await areTakes(words, options)) && a !== undefined && b !== undefined) {
    const { compareTakesCommand } = await import('./commands/compare-takes.js');
    return compareTakesCommand(a, b, options, io);
  }
  const { compareCommand } = await import('./commands/compare.js');
  return compareCommand(twoMaps(a, b, inputs, options), options, io);
}
