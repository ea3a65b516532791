import type { Command } from 'commander';
import type { Io } from './io.js';
import { mapLimit, megabytes } from './options.js';

/** Declares the command that keeps a cue on a page while its files are worked on. */
export function deskCommand(
  program: Command,
  io: Io,
  finish: (outcome: Promise<number>) => Promise<void>,
): Command {
  return program
    .command('desk')
    .summary('keep the sheet of a cue open, and move bounds and levels on it')
    .description(
      'Serves the sheet of a cue as a page, to this machine alone, and prints its address. The page is made anew whenever the cue, a map or the recording is saved, keeps its place and says what changed in which bars. ' +
        'Bounds of rules and levels of parts can be moved on it: it shows at once which notes change, and writes into the files only when it is asked to. Ctrl+C ends it.',
    )
    .argument('<cue.yaml>', 'the cue')
    .option('--port <number>', 'the port of the page; any that is free, if left out')
    .option('--max-midi <MB>', 'read MIDI files up to this size (64)', megabytes)
    .addOption(mapLimit())
    .action((file, options) =>
      finish(import('./commands/desk.js').then(({ deskCommand: run }) => run(file, options, io))),
    );
}
