import { Argument, Command, CommanderError, Option } from 'commander';
import { arrangingCommands } from './arranging.js';
import { comparingCommands } from './comparing.js';
import { deskCommand } from './desk-command.js';
import { drawingCommand } from './drawing.js';
import { formatOption } from './format-option.js';
import { exit, type Io, UsageError } from './io.js';
import { libraryCommands } from './library-commands.js';
import { bare, collect, cuePart, mapLimit, megabytes, partOptions, trackOptions } from './options.js';
import { printRefusal } from './refusal.js';
import { schemaKinds } from './schema-kinds.js';
import { sessionOf } from './session.js';
import { configure, helpCommand, tellingCommands } from './spoken.js';
import { timingOptions } from './timing.js';
import { usageErrorOf, usageText } from './usage.js';
import { version } from './version.generated.js';
import { watched, watching } from './watch.js';

const about = [
  'Puts the right articulation switch before every note of a played line.',
  'A map (a YAML file, one for each library) says which recording a note asks for, and how your library is told to ' +
    'use it. keyslip reads your MIDI recording, decides note by note, and writes the same recording with the switches ' +
    'in place. Notes, controllers and everything else stay exactly as you played them.',
].join('\n\n');

const examples = `
Examples:
  keyslip init horns.yaml                                   a commented map to begin from
  keyslip check horns.yaml                                  is the map in order?
  keyslip compile take.mid --map horns.yaml -o out.mid      switch a recorded line
  keyslip explain take.mid --map horns.yaml --at 12..16     why did bars 12 to 16 come out so?
  keyslip cue night.cue.yaml                                compile a whole piece of several parts
  keyslip sheet night.cue.yaml -o night.html                look at what was decided
  keyslip desk night.cue.yaml                               keep that open while you work on it
  keyslip mark take.mid --score night.musicxml -o m.mid     write a score's marks into a take of it
  keyslip compare HEAD:horns.yaml horns.yaml take.mid       what does an edit of the map change?
  keyslip compare night.cue.yaml take2.mid                  what does a new take change?
  keyslip move night.cue.yaml --part Horns --to h2.yaml     what would become of the horns in another library?
  keyslip hear night.cue.yaml -o night.wav                  what does it sound like?
  keyslip probe horns.yaml -o probe.mid                     have your library measured
  keyslip learn old.mid --map sketch.yaml -o horns.yaml     find the rules that you switch by`;

/**
 * Runs one command line.
 *
 * @param argv the words after the program's name
 * @returns the exit status: 0 done; 1 the input or a map has errors, or what was compared differs; 2 the command line is wrong
 */
export async function run(argv: readonly string[], outer: Io): Promise<number> {
  let status: number = exit.done;
  const session = sessionOf(withOneInput(outer));
  const { io } = session;
  const finish = async (outcome: Promise<number>) => {
    status = await outcome;
  };
  const program = build(io, finish);
  session.listen(program);
  try {
    await program.parseAsync([...argv], { from: 'user' });
    return status;
  } catch (error) {
    const wrong = error instanceof CommanderError ? usageErrorOf(error, program, argv) : error;
    if (wrong instanceof UsageError) {
      printRefusal(argv, wrong, io);
      io.err(usageText(wrong, io));
      return exit.usage;
    }
    if (error instanceof CommanderError) return error.exitCode === 0 ? exit.done : exit.usage;
    throw error;
  }
}

/** Standard input can be read once: whoever names it again is told, and gets no empty file. */
function withOneInput(io: Io): Io {
  let isRead = false;
  return {
    ...io,
    stdin: async (limit) => {
      if (isRead) throw new UsageError('only one of the files can come from standard input');
      isRead = true;
      return io.stdin(limit);
    },
  };
}

function build(io: Io, finish: (outcome: Promise<number>) => Promise<void>): Command {
  const program = new Command('keyslip')
    .description(about)
    .addHelpText('after', examples)
    .version(version, '-v, --version', 'print the version')
    .helpOption('-h, --help', 'show this help')
    .helpCommand(false);
  configure(program, io);

  const compile = partOptions(program.command('compile'))
    .summary('write the recording with its switches in place')
    .description(
      'Reads a recording, or a score in MusicXML or MEI, and writes it as MIDI with the right switch before each note. ' +
        'Of several recordings, all results are written or none.',
    )
    .argument('<in.mid|score...>', 'the recordings or scores; - alone reads standard input')
    .option(
      '-o, --output <out.mid|folder>',
      'where the result goes (out.midi2: as a MIDI 2.0 clip without switches); - writes to standard output; of several, a folder that is there, where they keep their names',
    )
    .option('--in-place', 'allow results to take the place of their recordings')
    .option(
      '--report <file.json|folder>',
      'also write what was decided, note by note; of several recordings, a folder for a report of each',
    )
    .option('--prove', 'play the result to a model of the library first, and write it only if all is right')
    .addOption(bare())
    .addOption(watching())
    .action((inputs, options) =>
      finish(
        import('./commands/compile.js').then(({ compileCommand }) =>
          watched([...inputs, options.output], options, io, (each) => compileCommand(inputs, options, each)),
        ),
      ),
    );

  const cue = program
    .command('cue')
    .summary('compile a whole piece that a cue file describes')
    .description(
      'Compiles every part of a piece of music as its cue file says: source, maps, timing, layers, dynamics, levels and seats.',
    )
    .argument('<cue.yaml>', 'the cue file; its paths are meant from its folder')
    .option('-p, --part <name>', 'only this part (repeat it for several)', collect, [])
    .option(
      '-o, --output <out.mid>',
      'where the result goes, in place of what the cue says (out.midi2: as a clip); - writes to standard output',
    )
    .option('--report <file.json>', 'also write what was decided, note by note')
    .option('--prove', 'play the result to a model of the libraries first, and write it only if all is right')
    .addOption(bare())
    .option('--replace', 'let the output that the cue names take the place of a file that is no music')
    .addOption(watching())
    .option('--max-midi <MB>', 'read MIDI files up to this size (64)', megabytes)
    .addOption(mapLimit())
    .action((file, options) =>
      finish(
        import('./commands/cue.js').then(({ cueCommand }) =>
          watched([file, options.output], options, io, (each) => cueCommand(file, options, each)),
        ),
      ),
    );

  const explain = partOptions(program.command('explain'))
    .summary('say which rule decided each note')
    .description(
      'Says for each note which rule of the map decided, on which line it stands, and what was measured.',
    )
    .argument(
      '<cue.yaml|in.mid|score>',
      'the cue, the recording or the score; - reads a recording from standard input',
    )
    .addOption(cuePart())
    .option('--at <bar[.beat][..bar]>', 'only these bars: 12, 12.3 or 12..16')
    .action((input, options) =>
      finish(
        import('./commands/explain.js').then(({ explainCommand }) => explainCommand(input, options, io)),
      ),
    );

  const prove = partOptions(program.command('prove'))
    .summary('play the result to a model of the library')
    .description(
      'Plays a compiled file to a model of the library and says whether every note sounds as meant, from any bar on. ' +
        'With --against, also whether nothing of the recording is missing or changed; with the timing options that the file says it was compiled with, unless some are given.',
    )
    .argument('<cue.yaml|out.mid>', 'the compiled file, or the cue that names it; - reads standard input')
    .option('--against <in.mid>', 'the recording or score that it was compiled from')
    .option('--cue <cue.yaml>', 'the cue that it was compiled from, in place of recording and maps')
    .addOption(cuePart())
    .option('--at <bar[.beat][..bar]>', 'of a cue: only these bars: 12, 12.3 or 12..16')
    .action((file, options) =>
      finish(import('./commands/prove.js').then(({ proveCommand }) => proveCommand(file, options, io))),
    );

  const sheet = drawingCommand(program, io, finish);

  const check = program
    .command('check')
    .summary('validate maps and cues, and run examples')
    .description(
      'Checks maps for mistakes and collisions, and runs the examples that they contain; checks cues with all that they name.',
    )
    .argument(
      '<file.yaml...>',
      'maps and cues; folders; patterns in quotes ("maps/*.yaml"); :maps/horns.yaml as git has it staged; - reads standard input',
    )
    .option('--merged', 'print each map as YAML with all that its base lends it')
    .addOption(formatOption())
    .addOption(watching())
    .addOption(mapLimit())
    .action((files, options) =>
      finish(
        import('./commands/check.js').then(({ checkCommand }) =>
          watched(files, options, io, (each) => checkCommand(files, options, each)),
        ),
      ),
    );

  const [mark, set, voice] = arrangingCommands(program, io, finish);

  const init = program
    .command('init')
    .summary('write a commented map, or cue, to begin from')
    .description(
      'Writes a small, commented map for a library that you describe next; or, for a recording, a cue with its tracks.',
    )
    .argument('[file.yaml]', 'the new file; - writes to standard output; may be left out for a cue')
    .option('--cue <in.mid>', 'write a cue for this recording')
    .option('--max-midi <MB>', 'read MIDI files up to this size (64)', megabytes)
    .action((file, options) =>
      finish(import('./commands/init.js').then(({ initCommand }) => initCommand(file, options, io))),
    );

  program
    .command('schema')
    .summary('print the JSON Schema of maps, cues, or reports')
    .description(
      'Prints the JSON Schema of maps or of cues, for editors that complete and explain the keys, or of what --json and --report print.',
    )
    .addArgument(new Argument('[kind]', 'of what').choices(schemaKinds).default('map'))
    .action((kind) =>
      finish(import('./commands/schema.js').then(({ schemaCommand }) => schemaCommand(kind, io))),
    );

  const inspect = trackOptions(program.command('inspect'))
    .summary('say what sounds in a recording, and what of it sounds mechanical')
    .description(
      'Says what sounds mechanical in a recording, in which bars, and what mends it; then its chords, how they are laid out, where each part lies, and which sections cover others. Needs no map; with one, its range is looked at too.',
    )
    .argument(
      '<cue.yaml|in.mid|score>',
      'the cue, the recording or the score; - reads a recording from standard input',
    )
    .addOption(cuePart())
    .option('--at <bar[.beat][..bar]>', 'only what is struck in these bars: 12, 12.3 or 12..16')
    .option('--tune <name>', 'the part that has the tune, for the balance; found, if left out')
    .option(
      '-m, --map <map.yaml>',
      'the map of the library that is to play it; TRACK=MAP.yaml for one track of several (repeat it)',
      collect,
      [],
    )
    .addOption(mapLimit())
    .option('--brief', 'one screen: what sounds mechanical, the main key, how much there is to remark')
    .addOption(
      new Option('--per <length>', 'tell the chord of each, not where it is found to change').choices([
        'beat',
        'bar',
      ]),
    )
    .action((input, options) =>
      finish(
        import('./commands/inspect.js').then(({ inspectCommand }) => inspectCommand(input, options, io)),
      ),
    );

  const [compare, move] = comparingCommands(program, io, finish);

  deskCommand(program, io, finish);

  const { probe, measure, learn, suggest, hear } = libraryCommands(program, finish, io);
  tellingCommands(program, io, finish);
  helpCommand(program);

  for (const command of [compile, explain, prove, sheet, hear]) timingOptions(command);

  const ofLibraries = [probe, measure, learn, suggest, hear];
  for (const command of [
    ...[compile, cue, explain, prove, sheet, check, compare, move, inspect, init, mark, set, voice],
    ...ofLibraries,
  ]) {
    command.optionsGroup('Output:').option('-q, --quiet', 'no summary and no warnings');
    if (command !== init)
      command.option('--json', 'print the result as JSON').option('--strict', 'let warnings count as errors');
  }
  return program;
}
