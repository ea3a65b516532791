import type { Command } from 'commander';
import { type ListedOption, listedCommands } from './command-list.js';

/** The manual as a page for man(1), in the macros of man(7). */
export function manualPage(program: Command): string {
  const [first = '', ...more] = program.description().split('\n\n');
  const commands = listedCommands(program).flatMap(({ name, options }) => {
    const command = program.commands.find((one) => one.name() === name);
    if (!command) return [];
    const given = command.usage().replace(/^\[options\] ?/u, '');
    return [
      `.SS keyslip ${plain(name)} ${plain(given)}`.trimEnd(),
      plain(command.description()),
      ...options.filter(({ flags }) => !isOfAll(flags, program)).flatMap(described),
    ];
  });
  return `${[
    `.TH KEYSLIP 1 "" "keyslip ${program.version() ?? ''}" "User Commands"`,
    '.SH NAME',
    `keyslip \\- ${plain(first.replace(/\.$/u, ''))}`,
    '.SH SYNOPSIS',
    '.B keyslip',
    '.I command',
    '[options] files',
    '.SH DESCRIPTION',
    ...more.flatMap((paragraph) => ['.PP', plain(paragraph)]),
    '.SH OPTIONS OF ALL COMMANDS',
    ...(listedCommands(program)[0]?.options ?? [])
      .filter(({ flags }) => isOfAll(flags, program))
      .flatMap(described),
    '.SH COMMANDS',
    ...commands,
    '.SH EXIT STATUS',
    ...['.TP', '0', 'Done.', '.TP', '1'],
    'The input or a map has errors, or what was compared differs.',
    ...['.TP', '2', 'The command line is wrong.'],
    '.SH ENVIRONMENT',
    'NO_COLOR and FORCE_COLOR say whether messages are coloured; a terminal that is called dumb is not sent colours.',
  ].join('\n')}\n`;
}

function isOfAll(flags: readonly string[], program: Command): boolean {
  return flags.includes('--help') || program.options.some(({ long }) => flags.includes(long ?? ''));
}

function described({ flags, about, takesValue, choices }: ListedOption): readonly string[] {
  const value = takesValue ? ' \\fIvalue\\fR' : '';
  const which = choices.length > 0 ? `: ${choices.join(', ')}` : '';
  return [
    '.TP',
    `${flags.map((flag) => `\\fB${plain(flag)}\\fR`).join(', ')}${value}`,
    plain(`${about}${which}`),
  ];
}

/** A text that no macro reads as anything else: man(7) and roff(7) on lines that begin with a dot, and on backslashes. */
function plain(text: string): string {
  const escaped = text
    .replaceAll('\\', '\\e')
    .replaceAll('-', '\\-')
    .replace(/^(?=[.'])/gmu, '\\&');
  // groff_char(7): characters beyond ASCII by their number, so that the page needs no encoding.
  return escaped.replace(/[^\n -~]/gu, (character) => {
    const number = (character.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0');
    return `\\[u${number}]`;
  });
}
