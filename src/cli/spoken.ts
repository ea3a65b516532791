import { Argument, type Command, type Option } from 'commander';
import { escapeLines } from '../diagnostics/index.js';
import { exit, type Io } from './io.js';
import { type Shell, shells } from './shells.js';
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

/** Declares what tells other programs of the commands: `completion` for shells, and `manual` for man. */
export function tellingCommands(
  program: Command,
  io: Io,
  finish: (outcome: Promise<number>) => Promise<void>,
): void {
  program
    .command('completion')
    .description('print a script that lets your shell complete commands and options')
    .addArgument(new Argument('<shell>', 'which shell').choices(shells))
    .action((shell: Shell) =>
      finish(
        import('./completion.js').then(({ completionScript }) => {
          io.out(completionScript(shell, program));
          return exit.done;
        }),
      ),
    );
  program
    .command('manual')
    .description('print the manual as a page for man: keyslip manual > keyslip.1')
    .action(() =>
      finish(
        import('./manual.js').then(({ manualPage }) => {
          io.out(manualPage(program));
          return exit.done;
        }),
      ),
    );
}

/** An option's description, with its choices; lists that begin empty are not worth a word. */
function describeOption({ description, argChoices }: Option): string {
  return argChoices ? `${description}: ${argChoices.join(', ')}` : description;
}
