import { escapeText } from '../diagnostics/index.js';
import type { CommonOptions } from './context.js';
import type { Io } from './io.js';

/** Work that is done sooner than this needs no line. Unit: ms. */
const patience = 400;

/** A line on the terminal that tells how far long work has come, and is gone when it is done. */
export interface Progress {
  /**
   * @param doing what is done now with that part
   * @param share how much of that is done, 0–1
   */
  step(begun: number, of: number, name: string, doing?: string, share?: number): void;
  /** @param text of our own */
  tell(text: string): void;
  end(): void;
}

/**
 * Nothing is shown where nobody looks: with --quiet or --json, or where standard error is no terminal. What is done is
 * noted for --verbose all the same.
 */
export function progressLine({ progress, note }: Io, { quiet, json }: CommonOptions): Progress {
  const isShowing = progress !== undefined && !quiet && !json;
  const began = performance.now();
  let isShown = false;
  let current = '';
  const tell = (text: string) => {
    if (!isShowing || performance.now() - began < patience) return;
    isShown = true;
    progress(text);
  };
  const begin = (text: string) => {
    if (current !== '' && text !== current) note?.(current);
    current = text;
  };
  return {
    step(begun, of, name, doing, share) {
      const part = `part ${begun} of ${of}: ${escapeText(name)}`;
      const text = doing === undefined ? part : `${part}, ${doing}`;
      if (doing !== undefined) begin(text);
      tell(share === undefined ? text : `${text}: ${Math.floor(100 * share)} %`);
    },
    tell,
    end() {
      begin('');
      if (isShown) progress?.('');
    },
  };
}

/** The same for work that is one long piece: the share that is done, in percent. */
export function shareLine(
  { progress }: Io,
  { quiet, json }: CommonOptions,
): { step(share: number, what: string): void; end(): void } {
  if (!progress || quiet || json) return { step: () => {}, end: () => {} };
  const began = performance.now();
  let shown = '';
  return {
    step(share, what) {
      const line = `${what}: ${Math.floor(100 * Math.min(1, share))} %`;
      if (performance.now() - began < patience || line === shown) return;
      shown = line;
      progress(line);
    },
    end() {
      if (shown !== '') progress('');
    },
  };
}

/** Tells what is done while it is waited for, where nobody knows how long it takes. */
export async function whileWaiting<T>(
  { progress }: Io,
  { quiet, json }: CommonOptions,
  doing: string,
  work: Promise<T>,
): Promise<T> {
  if (!progress || quiet || json) return work;
  let isShown = false;
  const timer = setTimeout(() => {
    isShown = true;
    progress(doing);
  }, patience);
  return work.finally(() => {
    clearTimeout(timer);
    if (isShown) progress('');
  });
}
