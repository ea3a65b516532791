import { escapeText } from '../diagnostics/index.js';
import type { CommonOptions } from './context.js';
import type { Io } from './io.js';

/** Work that is done sooner than this needs no line. Unit: ms. */
const patience = 400;

/** A line on the terminal that tells how far long work has come, and is gone when it is done. */
export interface Progress {
  step(done: number, of: number, name: string): void;
  /** @param text of our own */
  tell(text: string): void;
  end(): void;
}

/** Nothing is shown where nobody looks: with --quiet or --json, or where standard error is no terminal. */
export function progressLine({ progress }: Io, { quiet, json }: CommonOptions): Progress {
  if (!progress || quiet || json) return { step: () => {}, tell: () => {}, end: () => {} };
  const began = performance.now();
  let isShown = false;
  const tell = (text: string) => {
    if (performance.now() - began < patience) return;
    isShown = true;
    progress(text);
  };
  return {
    step: (done, of, name) => tell(`part ${done} of ${of}: ${escapeText(name)}`),
    tell,
    end() {
      if (isShown) progress('');
    },
  };
}
