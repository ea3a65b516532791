import type { Command } from 'commander';
import { escapeText } from '../diagnostics/index.js';
import type { Io } from './io.js';
import { secondsText } from './seconds.js';

/** The streams of one command line, as the options that every command has let them be used. */
export interface Session {
  readonly io: Io;
  /** Declares those options, and hears of them. */
  listen(program: Command): void;
}

export function sessionOf(outer: Io): Session {
  let isPlain = false;
  let isVerbose = false;
  let last = performance.now();
  const note = (done: string) => {
    const now = performance.now();
    outer.err(`${secondsText(now - last).padStart(7)}  ${escapeText(done)}\n`);
    last = now;
  };
  return {
    io: {
      ...outer,
      get color() {
        return outer.color && !isPlain;
      },
      get note() {
        return isVerbose ? note : undefined;
      },
    },
    listen(program) {
      program.option('--no-color', 'no colours; NO_COLOR and FORCE_COLOR are honoured too');
      program.option(
        '--verbose',
        'say on standard error what was read and written, and how long each stage took',
      );
      program.on('option:verbose', () => {
        isVerbose = true;
      });
      program.on('option:no-color', () => {
        isPlain = true;
      });
    },
  };
}
