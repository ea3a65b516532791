import { type Command, Option } from 'commander';
import type { Io } from './io.js';
import { collect, cuePart, mapLimit, partOptions, trackOptions } from './options.js';

type Finish = (outcome: Promise<number>) => Promise<void>;

/** The commands that listen to a library, learn its map, and let music be heard. */
export function libraryCommands(program: Command, finish: Finish, io: Io) {
  return {
    probe: probeCommand(program, finish, io),
    measure: measureCommand(program, finish, io),
    learn: learnCommand(program, finish, io),
    suggest: suggestCommand(program, finish, io),
    hear: hearCommand(program, finish, io),
  };
}

function probeCommand(program: Command, finish: Finish, io: Io): Command {
  return program
    .command('probe')
    .summary('write what your library has to play to be measured')
    .description(
      'Writes a MIDI file that plays everything that has to be known of a library, and beside it a sound with clicks. ' +
        'Lay both on bar 1 at 120 quarters a minute, bounce them together to a stereo WAV file without effects, and give that to keyslip measure. ' +
        'It is loud in places: turn the level of headphones down before you listen.',
    )
    .argument('<map.yaml>', 'the map of the library')
    .option(
      '-o, --output <probe.mid>',
      'where the MIDI file goes; the clicks go to probe-click.wav beside it',
    )
    .option('--quick', 'two pitches and two values each: a few minutes, and less certain')
    .option('--room', 'two more seconds for each note, for recordings with a long room')
    .addOption(mapLimit())
    .action((file, options) =>
      finish(import('./commands/probe.js').then(({ probeCommand: run }) => run(file, options, io))),
    );
}

function measureCommand(program: Command, finish: Finish, io: Io): Command {
  return program
    .command('measure')
    .summary('measure a library by the bounce of its probe')
    .description(
      'Finds in the bounce of a probe how late each articulation speaks, how loud velocities and controller values are, ' +
        'where the recording sits, which keys are silent and which switches did nothing, and says what it is not certain of.',
    )
    .argument('<probe.wav>', 'the bounce: stereo, 44.1 to 192 kHz, 16 to 32 bits or floating point')
    .option('-m, --map <map.yaml>', 'the map that the probe was made for')
    .option('--write', 'put the values into the map; comments and order stay')
    .addOption(mapLimit())
    .action((file, options) =>
      finish(import('./commands/measure.js').then(({ measureCommand: run }) => run(file, options, io))),
    );
}

function learnCommand(program: Command, finish: Finish, io: Io): Command {
  return trackOptions(program.command('learn'))
    .summary('find the rules by which you placed switches by hand')
    .description(
      'Listens to what sounded at each note of tracks with switches in them, finds few rules that give the same, ' +
        'and writes them into a sketch: a map with articulations and switches. Its own rules and examples are replaced.',
    )
    .argument('<tracks.mid...>', 'recordings with switches in them; - reads standard input')
    .option('-m, --map <sketch.yaml>', 'the sketch')
    .option('-o, --output <map.yaml>', 'where the map goes; - writes to standard output')
    .addOption(mapLimit())
    .action((inputs, options) =>
      finish(import('./commands/learn.js').then(({ learnCommand: run }) => run(inputs, options, io))),
    );
}

function suggestCommand(program: Command, finish: Finish, io: Io): Command {
  return trackOptions(program.command('suggest'))
    .summary('say how the lengths of a take fall, and which bounds would suit it')
    .description(
      'Says how long the notes of a take are held, where the natural breaks between short and long lie, which bounds of its map cut through a heap, and what others would give.',
    )
    .argument('<cue.yaml|take.mid>', 'the recording, or the cue that plays it; - reads standard input')
    .addOption(cuePart())
    .option(
      '-m, --map <map.yaml>',
      'the map; TRACK=MAP.yaml for one track of several (repeat it)',
      collect,
      [],
    )
    .addOption(mapLimit())
    .action((input, options) =>
      finish(import('./commands/suggest.js').then(({ suggestCommand: run }) => run(input, options, io))),
    );
}

function hearCommand(program: Command, finish: Finish, io: Io): Command {
  return partOptions(program.command('hear'))
    .summary('let the compiled music be heard, without the library')
    .description(
      'Renders a cue, a recording or a compiled file with a bank of General MIDI sounds. Each articulation is heard by a stand-in, as its map says or as its means tell; notes are as late as the map says that their articulations speak. ' +
        'Nothing is louder than -1 dBFS; turn the level of headphones down all the same before you listen.',
    )
    .argument('<cue.yaml|file.mid>', 'the cue, or the recording or compiled file; - reads standard input')
    .option('-o, --output <out.wav>', 'where the sound goes')
    .option(
      '--bank <file>',
      'a SoundFont (.sf2, .sf3) or a DLS bank (.dls); one in the usual places if not given',
    )
    .option('-p, --part <name>', 'only this part, with its layers (repeat it for several)', collect, [])
    .option('--solo <name>', 'of these parts, this one alone (repeat it for several)', collect, [])
    .option('--at <bar[.beat][..bar]>', 'only these bars: 12, 12.3 or 12..16')
    .option('--before', 'as it was played: without switches, stand-ins, timing and layers')
    .option('--click', 'with a click on each beat')
    .addOption(new Option('--rate <Hz>', 'samples in a second').choices(['44100', '48000']).default('48000'))
    .addOption(
      new Option('--format <format>', 'bits of each sample; ogg compresses')
        .choices(['16', '24', 'float', 'ogg'])
        .default('24'),
    )
    .action((input, options) =>
      finish(import('./commands/hear.js').then(({ hearCommand: run }) => run(input, options, io))),
    );
}
