import { asHeard, proofOf, withoutSwitches } from '../api/index.js';
import { compileParts } from '../compile/index.js';
import { type Cue, type CueJob, compileCue } from '../cue/index.js';
import { type Diagnostic, diagnostic, isError, type Outcome, plural } from '../diagnostics/index.js';
import type { Song } from '../midi/index.js';
import type { Proof, Violation } from '../prove/index.js';
import type { SheetTask } from '../sheet/index.js';
import type { CommonOptions } from './context.js';
import { loadMaterial } from './cue-files.js';
import type { Io } from './io.js';
import { type LoadedJobs, loadJobs, type PartOptions } from './jobs.js';
import { progressLine } from './progress.js';
import { titleOf } from './title.js';

/** What a sheet of a cue is made from. */
export async function cueTask(
  { value: cue, diagnostics: ofCue }: Outcome<Cue>,
  options: CommonOptions,
  io: Io,
): Promise<Outcome<SheetTask>> {
  if (!cue) return { value: undefined, diagnostics: ofCue };
  const { value: material, diagnostics: ofFiles } = await loadMaterial(cue, options, io);
  const progress = progressLine(io, options);
  const compiled = material && compileCue(cue, material, progress.step);
  progress.end();
  const diagnostics = [...ofCue, ...ofFiles, ...(compiled?.diagnostics ?? [])];
  if (!compiled?.value || !material) return { value: undefined, diagnostics };
  const { parts, tracks, planned } = compiled.value;
  const jobs = parts.map((one) => {
    const job = planned.jobs.find(({ part }) => part === one.part);
    return { compiled: one, name: job?.name ?? one.part.trackName, ...placeOf(job) };
  });
  const title = cue.title ?? titleOf(cue.file);
  return { value: { title, song: planned.song, tracks, jobs, diagnostics }, diagnostics };
}

/** What a part of a cue is to the others. */
function placeOf(
  job: CueJob | undefined,
): Pick<SheetTask['jobs'][number], 'layer' | 'doubles' | 'doublesChannel' | 'broughtBy'> {
  const { layer, doubles, doublesChannel, broughtBy } = job ?? {};
  const brought = broughtBy === undefined ? {} : { broughtBy };
  if (layer === undefined) return brought;
  return {
    layer,
    ...brought,
    ...(doubles ? { doubles } : {}),
    ...(doublesChannel === undefined ? {} : { doublesChannel }),
  };
}

/** What a sheet of a MIDI file is made from: of a recording, or of a file that was compiled from one. */
export async function songTask(
  read: Outcome<Song>,
  options: PartOptions,
  io: Io,
): Promise<Outcome<SheetTask>> {
  const { value: loaded, diagnostics: found } = await loadJobs(read, options, io);
  if (!loaded) return { value: undefined, diagnostics: found };
  const compiled = compiledTask(loaded);
  const {
    song,
    parts,
    tracks,
    diagnostics: ofParts,
  } = compiled ?? {
    song: loaded.song,
    ...compileParts(loaded.song, loaded.jobs),
  };
  const diagnostics = [...found, ...ofParts];
  if (diagnostics.some(isError)) return { value: undefined, diagnostics };
  const jobs = parts.map((one) => ({
    compiled: one,
    name: one.part.trackName === '' ? `Track ${one.part.track}` : one.part.trackName,
  }));
  return { value: { title: titleOf(song.file), song, tracks, jobs, diagnostics }, diagnostics };
}

/**
 * The music of a compiled file, where it is heard if it says that it was compensated, with what it is meant to sound like decided anew; undefined for a file that is none:
 * that has nothing of the maps' switches, or in which most notes sound as something else.
 */
function compiledTask({ song: output, jobs: given, stored }: LoadedJobs) {
  const { song, jobs } = withoutSwitches({ song: output, jobs: given });
  if (song.tracks.every((track, index) => track.columns.length === output.tracks[index]?.columns.length))
    return undefined;
  const heard = asHeard(output, { song, jobs }, stored);
  const switched = heard?.decided ?? compileParts(song, jobs);
  const proof = proofOf(output, song, switched, false);
  const wrong = proof.parts.reduce((sum, part) => sum + part.wrongNotes, 0);
  if (wrong * 2 > proof.notes) return undefined;
  const shown = heard ? { song: heard.song, ...compileParts(heard.song, heard.jobs) } : { song, ...switched };
  return { ...shown, diagnostics: [...shown.diagnostics, ...heardOtherwise(proof)] };
}

/** What sounds otherwise in a compiled file, once for each track and kind. */
function heardOtherwise({ violations, file, parts }: Proof): readonly Diagnostic[] {
  const groups = new Map<string, Violation[]>();
  for (const one of violations) {
    const key = `${one.track} ${one.kind}`;
    const group = groups.get(key);
    if (group) group.push(one);
    else groups.set(key, [one]);
  }
  return [...groups.values()].flatMap((group): Diagnostic[] => {
    const [first] = group;
    if (!first) return [];
    const { bar, beat, tick, message, kind } = first;
    const track = first.track ?? 1;
    const trackName = parts.find((part) => part.track === track)?.trackName ?? '';
    const others =
      group.length === 1 ? '' : ` (and ${plural(group.length - 1, 'more', 'more')} of this kind)`;
    return [
      diagnostic(
        'heard-otherwise',
        { kind: 'music', file, track, trackName, bar, beat, tick },
        `${message}${others}`,
        `keyslip prove tells of each (${kind})`,
      ),
    ];
  });
}
