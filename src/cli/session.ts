import type { Command } from 'commander';
import type { Io } from './io.js';

/** The streams of one command line, as the options that every command has let them be used. */
export interface Session {
  readonly io: Io;
  /** Declares those options, and hears of them. */
  listen(program: Command): void;
}

export function sessionOf(outer: Io): Session {
  let isPlain = false;
  return {
    io: {
      ...outer,
      get color() {
        return outer.color && !isPlain;
      },
    },
    listen(program) {
      program.option('--no-color', 'no colours; NO_COLOR and FORCE_COLOR are honoured too');
      program.on('option:no-color', () => {
        isPlain = true;
      });
    },
  };
}
