import { Option } from 'commander';
import type { CommonOptions } from './context.js';

/** How what was found is told: to people, or to what shows it. */
const formats = ['text', 'json', 'github', 'sarif', 'junit'] as const;

export type Format = (typeof formats)[number];

export interface FormatOptions extends CommonOptions {
  readonly format?: Format;
}

/** The option of commands that tell in several formats. It is declared at every start: what writes them is not read here. */
export function formatOption(): Option {
  return new Option(
    '--format <kind>',
    'tell what was found to people, to programs, or to what runs them',
  ).choices(formats);
}

/** The format that is asked for; `--json` is short for one. */
export function formatOf({ format, json }: FormatOptions): Format {
  return format ?? (json ? 'json' : 'text');
}
