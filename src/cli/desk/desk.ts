import { dirname } from 'node:path';
import { type Changes, changesBetween, type DeskState } from '../../desk/index.js';
import { type Diagnostic, escapeText, isError } from '../../diagnostics/index.js';
import { drawSheet, engraversFor, noSheet, sharedEngraver } from '../../sheet/index.js';
import type { CommonOptions } from '../context.js';
import { show } from '../context.js';
import { loadCue } from '../cue-files.js';
import { exit, type Io } from '../io.js';
import { cueTask } from '../sheet-tasks.js';
import { titleOf } from '../title.js';
import type { Told } from './body.js';
import { type Mover, moverFor } from './moving.js';
import { changesWithin, problemOf } from './problems.js';
import { type Saved, savedOf } from './saved.js';

/** A cue on the desk: what was made of it last, and what is wrong with it now. */
export interface Desk {
  /**
   * Reads, compiles and draws the cue; where it has errors, what was made before stays.
   *
   * @param tell told whenever the state is another
   * @returns the exit status
   */
  compile(io: Io, tell: () => void): Promise<number>;
  /** What the page is told; undefined before anything was compiled. */
  state(): DeskState | undefined;
  sheet(number: number): string | undefined;
  moved(told: Told): Promise<unknown>;
  write(told: Told): Promise<unknown>;
}

/** @param io the streams, for what is written */
export function deskFor(file: string, options: CommonOptions, io: Io): Desk {
  const folder = dirname(file);
  let saved: Saved | undefined;
  let mover: Mover | undefined;
  let html = '';
  let state: DeskState | undefined;
  let engraver: Promise<ReturnType<typeof engraversFor>> | undefined;
  const nextEngraver = async () => {
    engraver ??= sharedEngraver().then(engraversFor);
    return (await engraver)();
  };
  const broken = (found: readonly Diagnostic[], each: Io): number => {
    const none = { title: escapeText(titleOf(file)), revision: 0, sheet: 0, bounds: [], levels: [] };
    state = { ...(state ?? none), isBusy: false, isBroken: true, problems: problemsOf(found, folder) };
    show(found.filter(isError), options, each);
    return exit.errors;
  };
  const compile = async (each: Io): Promise<number> => {
    const files = new Map<string, Uint8Array>();
    const read = (path: string, bytes: Uint8Array) => {
      each.read?.(path, bytes);
      files.set(path, bytes);
    };
    const reading: Io = { ...each, read };
    const cue = await loadCue(file, options, reading);
    const { value: task, diagnostics } = await cueTask(cue, options, reading);
    const all = [...diagnostics, ...(task ? noSheet(task) : [])];
    if (!cue.value || !task || all.some(isError)) return broken(all, each);
    const drawn = await drawSheet(task, { make: nextEngraver });
    const found = [...all, ...drawn.diagnostics];
    if (found.some(isError)) return broken(found, each);
    const next = savedOf(cue.value, task, files);
    const changes: Changes | undefined =
      saved && changesWithin(folder, changesBetween(saved.take, next.take, next.ids));
    state = {
      title: next.title,
      revision: (state?.revision ?? 0) + 1,
      sheet: (state?.sheet ?? 0) + (drawn.content === html ? 0 : 1),
      isBusy: false,
      isBroken: false,
      problems: [],
      ...(changes ? { changes } : {}),
      bounds: next.bounds,
      levels: next.levels,
    };
    saved = next;
    mover = moverFor(file, next, options, io);
    html = drawn.content;
    return exit.done;
  };
  const seen = async <T>({ revision }: Told, act: (mover: Mover) => Promise<T>) => {
    if (!mover || revision !== state?.revision)
      return { refused: 'the files have been changed meanwhile; the page is about to show it' };
    return act(mover);
  };
  return {
    state: () => state,
    sheet: (number) => (number === state?.sheet ? html : undefined),
    moved: (told) => seen(told, (one) => one.preview(told.moved)),
    write: (told) => seen(told, (one) => one.write(told.moved)),
    async compile(each, tell) {
      if (state) state = { ...state, isBusy: true };
      tell();
      const status = await compile(each);
      tell();
      return status;
    },
  };
}

/** So many are shown; a file that is broken all over says little more by the rest. */
const mostProblems = 100;

/** Errors alone: warnings are told on the sheet. */
function problemsOf(found: readonly Diagnostic[], folder: string): DeskState['problems'] {
  return found
    .filter(isError)
    .slice(0, mostProblems)
    .map((one) => problemOf(one, folder));
}
