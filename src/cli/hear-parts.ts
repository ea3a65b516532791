import { nearest, quoted } from '../diagnostics/index.js';
import { type Clock, lastTick, type Track } from '../midi/index.js';
import type { SheetTask } from '../sheet/index.js';
import {
  clicksUpTo,
  compiledToHear,
  type HearClick,
  type HearOptions,
  type HearPart,
  playedToHear,
} from '../sound/index.js';
import { type At, placesWithin } from './at.js';
import { UsageError } from './io.js';

/** The parts of a task as they are heard; a layer is a part of its own, and belongs to the one that it doubles. */
export interface Heard {
  readonly parts: readonly HearPart[];
  /** The names of what is heard by the name of a part, its layers among them. */
  named(names: readonly string[]): readonly string[];
}

/** What is heard of a compiled cue or recording; as it was played, without layers, if that is asked. */
export function partsToHear({ jobs, tracks, song }: SheetTask, asPlayed: boolean): Heard {
  const found = new Map<string, string[]>();
  const taken = new Set<string>();
  const parts = jobs.flatMap(({ compiled, name, layer }): HearPart[] => {
    if (asPlayed && layer !== undefined) return [];
    const number = compiled.part.track;
    const track: Track | undefined = asPlayed
      ? song.tracks[number - 1]
      : (tracks.get(number) ?? song.tracks[number - 1]);
    if (!track) return [];
    const called = unique(layer === undefined ? name : `${name} – ${layer}`, taken);
    found.set(name, [...(found.get(name) ?? []), called]);
    return [asPlayed ? playedToHear(compiled, called, track) : compiledToHear(compiled, called, track)];
  });
  return {
    parts,
    named: (names) =>
      names.flatMap((name) => {
        const known = found.get(name) ?? parts.filter((part) => part.name === name).map((part) => part.name);
        if (known.length > 0) return known;
        const all = [...found.keys()];
        const near = nearest(name, all);
        const hint =
          near === undefined ? `there are ${all.map(quoted).join(', ')}` : `did you mean ${quoted(near)}?`;
        throw new UsageError(`there is no part ${quoted(name)}`, hint);
      }),
  };
}

function unique(name: string, taken: Set<string>): string {
  let called = name;
  for (let number = 2; taken.has(called); number++) called = `${name} ${number}`;
  taken.add(called);
  return called;
}

/** The beats of the music, to be heard with it. */
export function clicksOf({ jobs, song }: SheetTask): readonly HearClick[] {
  const clock = jobs[0]?.compiled.line.clock;
  if (!clock) return [];
  return clicksUpTo(clock, Math.max(0, ...song.tracks.map(({ columns }) => lastTick(columns))));
}

/** From when to when a stretch of bars lasts. */
export function rangeOf(at: At, { jobs }: SheetTask): HearOptions['range'] {
  const clock = jobs[0]?.compiled.line.clock;
  if (!clock) return undefined;
  // Says that bars are needed, where there are none.
  placesWithin(at, clock);
  const { from, to } = at;
  return { fromMs: msAt(clock, from.bar, from.beat ?? 1), toMs: endOf(clock, to) };
}

/**
 * When a place `BAR[.BEAT]` begins.
 *
 * @param option by which it was given
 */
export function placeMs(option: string, text: string, { jobs }: SheetTask): number {
  const clock = jobs[0]?.compiled.line.clock;
  const [, bar, beat = '1'] = /^(\d{1,6})(?:\.(\d{1,3}))?$/u.exec(text) ?? [];
  if (bar === undefined || Number(bar) < 1 || Number(beat) < 1)
    throw new UsageError(`${option} ${quoted(text)} is no place: write a bar (12), or a bar and beat (12.3)`);
  if (clock?.position(0) === null)
    throw new UsageError(`${option} needs bars, and this file counts SMPTE frames instead`);
  return clock ? msAt(clock, Number(bar), Number(beat)) : 0;
}

function endOf(clock: Clock, { bar, beat }: At['to']): number {
  const next = msAt(clock, bar + 1, 1);
  return beat === undefined ? next : Math.min(next, msAt(clock, bar, beat + 1));
}

function msAt(clock: Clock, bar: number, beat: number): number {
  return clock.ms(clock.barStart(bar, beat) ?? 0);
}
