import type { Command } from 'commander';
import { type ListedCommand, type ListedOption, listedCommands } from './command-list.js';
import type { Shell } from './shells.js';

/** A script that lets a shell complete commands, options and their values; anything else is completed as a file. */
export function completionScript(shell: Shell, program: Command): string {
  const commands = listedCommands(program);
  if (shell === 'fish') return fish(commands);
  return shell === 'zsh' ? `#compdef keyslip\n${zsh(commands)}` : bash(commands, optionsOf(program));
}

/** The options that stand before any command. */
function optionsOf(program: Command): readonly string[] {
  return ['--help', ...program.options.flatMap(({ long }) => long ?? [])];
}

function flagsOf({ options }: ListedCommand): string {
  return options.flatMap(({ flags }) => flags).join(' ');
}

/** The options of a command that take values, as the patterns of a `case`. */
function valueCases(commands: readonly ListedCommand[], say: (choices: readonly string[]) => string): string {
  return commands
    .flatMap(({ name, options }) =>
      options
        .filter(({ takesValue }) => takesValue)
        .map(
          ({ flags, choices }) =>
            `    ${flags.map((flag) => `${name}:${flag}`).join('|')}) ${say(choices)} ;;`,
        ),
    )
    .join('\n');
}

/** For bash 3.2 and later: without associative arrays, and without the package of completions. */
function bash(commands: readonly ListedCommand[], options: readonly string[]): string {
  const names = commands.map(({ name }) => name).join(' ');
  return `# keyslip: completion for bash. Put this into ~/.bashrc: eval "$(keyslip completion bash)"
_keyslip() {
  local word="\${COMP_WORDS[COMP_CWORD]}" before="\${COMP_WORDS[COMP_CWORD-1]}" name='' options='' words='' at
  COMPREPLY=()
  for ((at = 1; at < COMP_CWORD; at++)); do
    case "\${COMP_WORDS[at]}" in
    -*) ;;
    *) name="\${COMP_WORDS[at]}"; break ;;
    esac
  done
  if [ -z "$name" ]; then
    COMPREPLY=($(compgen -W '${[names, ...options].join(' ')}' -- "$word"))
    return
  fi
  case "$name:$before" in
${valueCases(commands, (choices) => `COMPREPLY=($(compgen ${choices.length > 0 ? `-W '${choices.join(' ')}'` : '-f'} -- "$word")); return`)}
  esac
  case "$name" in
${commands.map((command) => `    ${command.name}) options='${flagsOf(command)}' words='${command.words.join(' ')}' ;;`).join('\n')}
  esac
  case "$word" in
  -*) COMPREPLY=($(compgen -W "$options" -- "$word")) ;;
  *) if [ -n "$words" ]; then COMPREPLY=($(compgen -W "$words" -- "$word")); else COMPREPLY=($(compgen -f -- "$word")); fi ;;
  esac
}
complete -o filenames -o bashdefault -F _keyslip keyslip
`;
}

function zsh(commands: readonly ListedCommand[]): string {
  const cases = commands
    .map(({ name, options, words }) => {
      const args = words.length > 0 ? `'*:word:(${words.join(' ')})'` : "'*:file:_files'";
      return `    ${name}) _arguments ${[...options.flatMap(zshOption), args].join(' ')} ;;`;
    })
    .join('\n');
  const names = commands.map(({ name, about }) => `    ${inQuotes(`${name}:${about}`)}`).join('\n');
  return `# keyslip: completion for zsh. Put this into ~/.zshrc, below compinit: eval "$(keyslip completion zsh)"
_keyslip() {
  local -a names
  names=(
${names}
  )
  if ((CURRENT == 2)); then
    _describe command names
    return
  fi
  local name="$words[2]"
  shift words
  ((CURRENT--))
  case "$name" in
${cases}
  esac
}
compdef _keyslip keyslip
`;
}

function zshOption({ flags, about, takesValue, choices }: ListedOption): readonly string[] {
  const value = choices.length > 0 ? `:value:(${choices.join(' ')})` : ':value:_files';
  const told = about.replace(/[[\\\]:]/gu, '\\$&');
  return flags.map((flag) => inQuotes(`*${flag}[${told}]${takesValue ? value : ''}`));
}

function fish(commands: readonly ListedCommand[]): string {
  const lines = commands.flatMap(({ name, about, options, words }) => {
    const ofCommand = `complete -c keyslip -n '__fish_seen_subcommand_from ${name}'`;
    return [
      `complete -c keyslip -n __fish_use_subcommand -f -a ${name} -d ${inFishQuotes(about)}`,
      ...options.map((option) => `${ofCommand}${fishOption(option)}`),
      ...(words.length > 0 ? [`${ofCommand} -f -a '${words.join(' ')}'`] : []),
    ];
  });
  return `# keyslip: completion for fish. Put this into ~/.config/fish/completions/keyslip.fish\n${lines.join('\n')}\n`;
}

function fishOption({ flags, about, takesValue, choices }: ListedOption): string {
  const named = flags
    .map((flag) => (flag.startsWith('--') ? ` -l ${flag.slice(2)}` : ` -s ${flag.slice(1)}`))
    .join('');
  const value = choices.length > 0 ? ` -x -a '${choices.join(' ')}'` : ' -r';
  return `${named}${takesValue ? value : ''} -d ${inFishQuotes(about)}`;
}

/** A word of a POSIX shell. */
function inQuotes(text: string): string {
  return `'${text.replaceAll("'", "'\\''")}'`;
}

function inFishQuotes(text: string): string {
  return `'${text.replace(/['\\]/gu, '\\$&')}'`;
}
