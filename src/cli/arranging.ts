import { type Command, Option } from 'commander';
import { rollOrders } from '../timing/index.js';
import type { Io } from './io.js';
import { mapLimit, megabytes } from './options.js';
import { milliseconds, wholeNumber } from './timing.js';

/** Declares the commands that make music before it is compiled: `mark`, `set` and `voice`. */
export function arrangingCommands(
  program: Command,
  io: Io,
  finish: (outcome: Promise<number>) => Promise<void>,
): readonly [mark: Command, set: Command, voice: Command] {
  const mark = program
    .command('mark')
    .summary("write a score's marks into a take of it")
    .description(
      'Finds what is written in what was played, however freely, and writes the articulations and dynamics of the score ' +
        'into the take as texts. What could not be matched is listed, by bars of the score.',
    )
    .argument('<take.mid>', 'what was played; - reads standard input')
    .requiredOption('--score <score>', 'what is written: MusicXML (.musicxml, .mxl) or MEI')
    .option('-o, --output <out.mid>', 'where the marked take goes; - writes to standard output')
    .option('--max-midi <MB>', 'read files up to this size (64)', megabytes)
    .action((take, options) =>
      finish(import('./commands/mark.js').then(({ markCommand }) => markCommand(take, options, io))),
    );

  const set = program
    .command('set')
    .summary('let chords strike where a recorded rhythm does')
    .description(
      'Reads a rhythm, recorded on any keys, and chords, as a sketch or as symbols in a text (| Dm | Gm/B♭ C7 | F |). ' +
        'Each stroke strikes the chord of its place, as long, as loud, as early or late as it was played; ' +
        'one that anticipates a change strikes the chord that it leads to.',
    )
    .argument('<chords.txt|sketch.mid>', 'the chords; - reads standard input')
    .requiredOption('--to <rhythm.mid>', 'the rhythm')
    .option('-o, --output <out.mid>', 'where the result goes; - writes to standard output')
    .option(
      '--roll [time]',
      'spread chords as several players would, by this standard deviation (15ms)',
      milliseconds,
    )
    .addOption(new Option('--roll-order <order>', 'the order in which chords are spread').choices(rollOrders))
    .option('--seed <number>', 'another chance for --roll', wholeNumber)
    .option('--max-midi <MB>', 'read files up to this size (64)', megabytes)
    .action((chords, options) =>
      finish(import('./commands/set.js').then(({ setCommand }) => setCommand(chords, options, io))),
    );

  const voice = program
    .command('voice')
    .summary('lay the chords of a sketch out for the parts of a cue')
    .description(
      "Gives each pitched part of a cue a line through the chords of a sketch: within the range of the part's map, led by " +
        'the least movement, clear in the low register, the bass below and the tune where you want it. ' +
        "The tracks have the names that the cue looks for, so that the result can be the cue's source.",
    )
    .argument('<sketch.mid>', 'the sketch; - reads standard input')
    .requiredOption('--parts <cue.yaml>', 'the cue that names the parts; its source need not be there yet')
    .option('-o, --output <out.mid>', 'where the result goes; - writes to standard output')
    .addOption(
      new Option('--position <position>', 'how chords are laid out')
        .choices(['open', 'close'])
        .default('open'),
    )
    .option(
      '--tune <part>',
      "which part has the sketch's highest line: top, none, or a part of the cue",
      'top',
    )
    .option('--divisi', 'divide sections by their players until every tone has a voice')
    .option('--crossing', 'let parts cross where that moves them less')
    .option('--max-midi <MB>', 'read MIDI files up to this size (64)', megabytes)
    .addOption(mapLimit())
    .action((sketch, options) =>
      finish(import('./commands/voice.js').then(({ voiceCommand }) => voiceCommand(sketch, options, io))),
    );

  return [mark, set, voice];
}
