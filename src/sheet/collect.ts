import { type Diagnostic, formatPlace } from '../diagnostics/index.js';
import { type BarRange, type Clock, clockOf } from '../midi/index.js';
import { balanceByBar, harmonyOf, type SoundingNote, sectionsOfJobs } from '../music/index.js';
import { observationsOn } from './observations.js';
import { type Layered, noteId, sheetPart } from './part.js';
import { isShown, type Span, spanOf } from './shown.js';
import { type SheetJob, type SheetTask, staffJobs } from './task.js';
import type { Remark, Sheet, SheetPart, SheetRemark } from './types.js';
import { withoutFolders } from './without-folders.js';

/** Collects all that a sheet shows of a compiled recording or cue. */
export function sheetOf(task: SheetTask): Sheet {
  const { title, song, tracks, jobs, diagnostics, shown, resting } = task;
  const clock = clockOf(song, jobs[0]?.compiled.part.track ?? 1);
  const bases = jobs.filter(({ layer }) => layer === undefined);
  const partOf = (base: SheetJob, index: number) => {
    const track = tracks.get(base.compiled.part.track) ?? song.tracks[base.compiled.part.track - 1];
    return sheetPart(base, layersOf(base, jobs), track, index);
  };
  const parts = bases.map(partOf);
  const notes = soundingOf(parts);
  const harmony = harmonyOf(notes, clock, { per: 'found' });
  const sections = sectionsOfJobs(song, tracks, jobs);
  const balance = balanceByBar(song, sections);
  const music = {
    song,
    parts: bases.map(({ compiled }) => compiled.part),
    names: parts.map(({ name }) => name),
    notes,
    clock,
    harmony,
    sections,
    balance,
  };
  const span = spanOf(clock, shown?.bars);
  const staves = staffJobs(task);
  const remarks = [
    ...diagnostics.map((diagnostic) => warning(diagnostic, parts, clock)),
    ...observationsOn(music, parts),
  ];
  const sheet = {
    title,
    source: song.file,
    clock,
    endTick: lastTick(parts, clock),
    parts: shown ? staves.map((base, index) => within(partOf(base, index), span, index)) : parts,
    harmony,
    balance,
    remarks: numbered(shown ? shownRemarks(remarks, bases, staves, shown.bars) : remarks),
    ...(shown?.bars ? { bars: shown.bars } : {}),
    ...(resting ? { resting } : {}),
  };
  const maps = jobs.map(({ compiled }) => compiled.map.file);
  return withoutFolders(sheet, [song.file, ...maps, ...diagnostics.map(({ place }) => place.file)]);
}

/**
 * A part with what sounds within a stretch, notes that are held into it too. Its notes are named by where they are among
 * these: by that the page's script finds what to say of them.
 */
function within(part: SheetPart, { from, to }: Span, at: number): SheetPart {
  return {
    ...part,
    notes: part.notes
      .filter(({ tick, endTick }) => tick < to && endTick > from)
      .map((note, index) => ({ ...note, id: noteId(at, index) })),
    switches: part.switches.filter(({ tick, onsetTick }) => tick < to && onsetTick >= from),
  };
}

/** Remarks on what is shown, or on nothing particular. */
function shownRemarks(
  remarks: readonly Remark[],
  bases: readonly SheetJob[],
  staves: readonly SheetJob[],
  bars: BarRange | undefined,
): readonly Remark[] {
  return remarks.flatMap((remark) => {
    const { part, ...rest } = remark;
    if (!isShown(remark, bars)) return [];
    if (part === undefined) return [rest];
    const base = bases[part];
    const at = base ? staves.indexOf(base) : -1;
    return at < 0 ? [] : [{ ...rest, part: at }];
  });
}

/** The layers of a part that stand on its channel, or on the only one that the part has. */
function layersOf(base: SheetJob, jobs: readonly SheetJob[]): readonly Layered[] {
  return jobs.flatMap(({ name, layer, doubles, doublesChannel, compiled }) =>
    layer !== undefined &&
    name === base.name &&
    (doublesChannel ?? compiled.part.channel) === base.compiled.part.channel
      ? [{ name: layer, compiled, doubles: doubles ?? new Set<number>() }]
      : [],
  );
}

/** A release that drags by less than this over the last bar line opens no bar of its own. Unit: ms. */
const dragging = 100;

function lastTick(parts: readonly SheetPart[], clock: Clock): number {
  let last = 1;
  for (const { notes } of parts)
    for (const { tick, endTick } of notes)
      last = Math.max(last, tick + 1, clock.tickAt(clock.ms(endTick) - dragging));
  return last;
}

/** The notes of parts that have pitches, in order of time. */
function soundingOf(parts: readonly SheetPart[]): readonly SoundingNote[] {
  return parts
    .flatMap(({ notes, family }, part) =>
      (family === 'percussion' ? [] : notes).map(({ tick, endTick, pitch, velocity }) => ({
        tick,
        endTick,
        pitch,
        velocity,
        part,
      })),
    )
    .sort((a, b) => a.tick - b.tick || a.pitch - b.pitch || a.part - b.part);
}

/** Warnings have a filled triangle, observations an open one. */
function numbered(remarks: readonly Remark[]): readonly SheetRemark[] {
  return remarks.map((remark, index) => ({
    ...remark,
    sign: `${remark.kind === 'warning' ? '▲' : '△'}${index + 1}`,
  }));
}

function warning(diagnostic: Diagnostic, parts: readonly SheetPart[], clock: Clock): Remark {
  const { message, hint, place, code } = diagnostic;
  const part = place.kind === 'music' ? parts.findIndex(({ track }) => track === place.track) : -1;
  // What is said of a part stands beside it; anything else says where it is.
  const text = part < 0 ? `${formatPlace(place)}: ${message} [${code}]` : `${message} [${code}]`;
  const about = { kind: 'warning', text, code, ...(hint === undefined ? {} : { hint }) } as const;
  if (place.kind !== 'music') return about;
  const bar = clock.position(place.tick)?.bar;
  return {
    ...about,
    tick: place.tick,
    ...(bar === undefined ? {} : { bar }),
    ...(part < 0 ? {} : { part }),
  };
}
