import type { Command, Option } from 'commander';
import { escapeLines } from './escape-lines.js';
import type { Io } from './io.js';
import { noCommand } from './usage.js';

/** Commander speaks through the same streams as we do, never ends the process, and leaves what is wrong for us to tell. */
export function configure(program: Command, io: Io): void {
  program
    .exitOverride()
    .showSuggestionAfterError(false)
    .configureHelp({ helpWidth: 100, optionDescription: describeOption, showGlobalOptions: true })
    .configureOutput({
      writeOut: (text) => io.out(text),
      writeErr: (text) => io.err(escapeLines(text)),
      outputError: () => {},
      getOutHasColors: () => io.color,
      getErrHasColors: () => io.color,
    });
}

/** Declares `help`, which knows the nearest name. */
export function helpCommand(program: Command): void {
  program
    .command('help')
    .argument('[command]')
    .description('show the help of a command')
    .action((name?: string) => {
      if (name === undefined) return program.help();
      const found = program.commands.find((command) => command.name() === name);
      if (!found) throw noCommand(name, program);
      return found.help();
    });
}

/** An option's description, with its choices; lists that begin empty are not worth a word. */
function describeOption({ description, argChoices }: Option): string {
  return argChoices ? `${description}: ${argChoices.join(', ')}` : description;
}
