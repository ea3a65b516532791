import type { Command } from 'commander';
import type { Io } from './io.js';
import { cuePart, partOptions } from './options.js';
import { watched, watching } from './watch.js';

/** Declares the command that draws what was decided: `sheet`. */
export function drawingCommand(
  program: Command,
  io: Io,
  finish: (outcome: Promise<number>) => Promise<void>,
) {
  return partOptions(program.command('sheet'))
    .summary('write what was decided as a page to look at')
    .description(
      'Writes staves with articulations, switches, dynamics, chords and balance as one HTML page, or as MusicXML for a copyist, for a cue, a recording, a score, or a compiled file.',
    )
    .argument('<cue.yaml|in.mid|score>', 'the cue, recording, score or compiled file; - reads standard input')
    .option(
      '-o, --output <sheet.html>',
      'where the page, or score (x.musicxml), goes; - writes to standard output',
    )
    .addOption(watching())
    .addOption(cuePart())
    .option('--at <bar[..bar]>', 'only these bars: 12 or 12..16')
    .option('--resting', 'keep the staves of parts that rest all through a system')
    .option(
      '--sound [out.wav]',
      'put the music on the page to be heard: from a WAV file, or, without one, rendered as hear does (write this option last, or before another)',
    )
    .option('--bank <file>', 'what --sound is rendered with: .sf2, .sf3 or .dls')
    .option(
      '--sound-from <bar[.beat]>',
      'where in the music the WAV file begins; at the beginning if not given',
    )
    .action((input, options) =>
      finish(
        import('./commands/sheet.js').then(({ sheetCommand }) =>
          watched([input, options.output], options, io, (each) => sheetCommand(input, options, each)),
        ),
      ),
    );
}
