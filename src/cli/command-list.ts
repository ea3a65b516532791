import type { Command, Option } from 'commander';

/** A command as completion and manual speak of it: read from what is declared, so that neither can be behind. */
export interface ListedCommand {
  readonly name: string;
  readonly about: string;
  readonly options: readonly ListedOption[];
  /** Words that the arguments may be; none where they are files. */
  readonly words: readonly string[];
}

export interface ListedOption {
  /** As they are typed: `-o`, `--output`. */
  readonly flags: readonly string[];
  readonly about: string;
  readonly takesValue: boolean;
  /** The values that it may have, where they are known. */
  readonly choices: readonly string[];
}

/** All commands of the program, in the order in which help lists them, with the options that each has. */
export function listedCommands(program: Command): readonly ListedCommand[] {
  const names = program.commands.map((command) => command.name());
  const help = { flags: ['-h', '--help'], about: 'show this help', takesValue: false, choices: [] };
  return program.commands.map((command) => ({
    name: command.name(),
    about: command.summary() || command.description(),
    options: [...[...command.options, ...program.options].map(listedOption), help],
    words:
      command.name() === 'help'
        ? names
        : command.registeredArguments.flatMap(({ argChoices }) => argChoices ?? []),
  }));
}

function listedOption({ short, long, description, required, optional, argChoices }: Option): ListedOption {
  return {
    flags: [short, long].filter((flag) => flag !== undefined && flag !== null),
    about: description,
    takesValue: required || optional,
    choices: argChoices ?? [],
  };
}
