import type { Command, CommanderError } from 'commander';
import { diagnostic, escapeLines, formatDiagnostic, nearest, quoted } from '../diagnostics/index.js';
import { type Io, UsageError } from './io.js';

/** What is wrong with a command line, told as any other diagnostic; lists that belong to it stand below. */
export function usageText({ message, hint }: UsageError, { color }: Pick<Io, 'color'>): string {
  const [first = '', ...more] = message.split('\n');
  const told = diagnostic('command-line', { kind: 'file', file: 'keyslip' }, first, hint);
  const lines = [
    formatDiagnostic(told, { color }),
    ...more.map((line) => `    ${escapeLines(line.trimStart())}`),
  ];
  return `${lines.join('\n')}\n`;
}

/** There is no such command. */
export function noCommand(name: string, program: Command): UsageError {
  const names = program.commands.map((command) => command.name());
  return new UsageError(
    `there is no command ${quoted(name)}`,
    didYouMean(name, names) ?? 'keyslip help shows what there is',
  );
}

/**
 * What commander found wrong with a command line, in our words; undefined where nothing is wrong but help or version
 * were asked for, or where help was all that could be said.
 */
export function usageErrorOf(
  { code, message, exitCode }: CommanderError,
  program: Command,
  argv: readonly string[],
): UsageError | undefined {
  if (exitCode === 0 || code === 'commander.help' || code === 'commander.helpDisplayed') return undefined;
  const command = firstCommand(argv, program) ?? program;
  const usage = command === program ? 'keyslip help' : `keyslip help ${command.name()}`;
  const plain = message.replace(/^error: /u, '');
  const [, named = ''] = /'((?:[^']|'(?=.*'))*)'/su.exec(plain) ?? [];
  switch (code) {
    case 'commander.unknownCommand':
      return noCommand(named, program);
    case 'commander.unknownOption':
      return new UsageError(
        `${command.name()} has no option ${quoted(named)}`,
        didYouMean(named.replace(/=.*$/su, ''), optionNames(command, program)) ??
          `${usage} shows its options`,
      );
    case 'commander.missingArgument':
      return new UsageError(`${command.name()} needs <${named}>`, `${usage} shows how it is called`);
    case 'commander.optionMissingArgument':
      return new UsageError(`a value is missing: ${named}`, `${usage} shows its options`);
    case 'commander.missingMandatoryOptionValue':
      return new UsageError(`${command.name()} needs ${named}`, `${usage} shows its options`);
    case 'commander.excessArguments':
      return new UsageError(plain.replace(/\.$/u, ''), `${usage} shows how it is called`);
    case 'commander.invalidArgument':
      return invalidValue(plain);
    default:
      return new UsageError(plain);
  }
}

/** `option '-c, --channel <1-16>' argument '99' is invalid. A channel is …`, and the same of arguments. */
function invalidValue(plain: string): UsageError {
  const ofOption = /^option '(.*?)' argument '(.*)' is invalid\. (.*)$/su.exec(plain);
  const ofArgument = /^command-argument value '(.*)' is invalid for argument '(.*?)'\. (.*)$/su.exec(plain);
  const [, name = '', value = '', why = ''] = ofOption ?? [
    '',
    `<${ofArgument?.[2] ?? ''}>`,
    ofArgument?.[1] ?? '',
    ofArgument?.[3] ?? plain,
  ];
  const [, choices = ''] = /^Allowed choices are (.*)\.$/su.exec(why) ?? [];
  const known = choices === '' ? [] : choices.split(', ');
  const which = known.length > 0 ? `it is one of ${known.join(', ')}` : why;
  return new UsageError(`${name} cannot be ${quoted(value)}`, didYouMean(value, known) ?? which);
}

function firstCommand(argv: readonly string[], program: Command): Command | undefined {
  const word = argv.find((one) => program.commands.some((command) => command.name() === one));
  return program.commands.find((command) => command.name() === word);
}

function optionNames(command: Command, program: Command): readonly string[] {
  const long = [...command.options, ...program.options].flatMap((option) => option.long ?? []);
  return [...long, '--help'];
}

function didYouMean(name: string, known: readonly string[]): string | undefined {
  const near = nearest(name, known);
  return near === undefined ? undefined : `did you mean ${quoted(near)}?`;
}
