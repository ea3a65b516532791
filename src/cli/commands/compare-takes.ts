import { type ComparedTakes, compareTakes, isOtherwise, type Take } from '../../compare/index.js';
import { compileParts } from '../../compile/index.js';
import type { Cue, CueMaterial } from '../../cue/index.js';
import { type Diagnostic, isError, plural } from '../../diagnostics/index.js';
import { takeDiagnostics, takesJson, takesText } from '../../report/index.js';
import { loadSong, show, status } from '../context.js';
import { chosenParts, loadCue, loadCueMaps, loadMaterial } from '../cue-files.js';
import { isCueFile } from '../cue-name.js';
import { cueTake } from '../cue-parts.js';
import { printFindings } from '../format.js';
import { type FormatOptions, formatOf } from '../format-option.js';
import { exit, type Io, UsageError } from '../io.js';
import { loadJobs } from '../jobs.js';
import { jsonOf, printJson } from '../json.js';

export interface CompareTakesOptions extends FormatOptions {
  /** The maps that play both recordings: `MAP.yaml`, or `TRACK=MAP.yaml`. */
  readonly map: readonly string[];
  readonly track: readonly string[];
  /** 1–16. */
  readonly channel?: number;
  /** Names of parts of the cues; all of them where there are none. */
  readonly part: readonly string[];
}

/** A take that was read and decided, or what is wrong with it. */
interface Taken {
  readonly take?: Take;
  readonly diagnostics: readonly Diagnostic[];
}

/**
 * `keyslip compare` of two takes: what is played, decided and sent otherwise, by part and bar. They are two recordings by
 * the same maps, two cues, or a cue and another take for it. The status is 1 where anything differs.
 */
export async function compareTakesCommand(
  a: string,
  b: string,
  options: CompareTakesOptions,
  io: Io,
): Promise<number> {
  if (a === '-' && b === '-') throw new UsageError('only one of the files can come from standard input');
  const [first, second] = isCueFile(a) ? await cues(a, b, options, io) : await recordings(a, b, options, io);
  const diagnostics = together(first, second);
  const compared = first.take && second.take && compareTakes(first.take, second.take);
  const found = compared ? takeDiagnostics(compared, b) : [];
  if (
    !(await printFindings(
      'compare',
      () => [{ file: b, diagnostics: [...diagnostics, ...found] }],
      options,
      io,
    ))
  ) {
    if (formatOf(options) === 'json')
      printJson({ a, b, ...(compared ? takesJson(compared) : {}), diagnostics: jsonOf(diagnostics) }, io);
    else if (compared) io.out(text(compared, second.take, options));
    show(diagnostics, options, io);
  }
  return status(diagnostics, options) || (compared && isOtherwise(compared) ? exit.errors : exit.done);
}

/** What only the first gives rise to is over; what keeps it from being compared is not. */
function together(first: Taken, second: Taken): readonly Diagnostic[] {
  const known = new Set(second.diagnostics.map((one) => JSON.stringify(one)));
  const ofFirst = first.take ? [] : first.diagnostics.filter(isError);
  return [...ofFirst.filter((one) => !known.has(JSON.stringify(one))), ...second.diagnostics];
}

function text(compared: ComparedTakes, second: Take | undefined, { quiet }: CompareTakesOptions): string {
  const said = takesText(compared, quiet === true);
  return said === '' ? '' : `${said}\n${quiet ? '' : prerollText(second)}`;
}

/** Bars are those of the result, as everywhere else. */
function prerollText({ preroll = 0 }: Partial<Take> = {}): string {
  return preroll === 0
    ? ''
    : `Bars are counted with ${plural(preroll, 'empty bar')} before the music (preroll).\n`;
}

async function recordings(
  a: string,
  b: string,
  options: CompareTakesOptions,
  io: Io,
): Promise<readonly [Taken, Taken]> {
  if (options.part.length > 0)
    throw new UsageError('--part names a part of a cue: a recording has tracks (--track)');
  return [await recording(a, options, io), await recording(b, options, io)];
}

async function recording(file: string, options: CompareTakesOptions, io: Io): Promise<Taken> {
  const jobs = { ...options, restate: [], pull: [] };
  const { value: loaded, diagnostics: found } = await loadJobs(await loadSong(file, options, io), jobs, io);
  if (!loaded) return { diagnostics: found };
  const { parts, diagnostics } = compileParts(loaded.song, loaded.jobs);
  const named = parts.map((part) => {
    const { trackName, track, channel } = part.part;
    // A name that several tracks have tells none of them.
    const isOwn =
      trackName !== '' && parts.every((one) => one.part.track === track || one.part.trackName !== trackName);
    return { key: JSON.stringify([isOwn ? trackName : track, channel]), name: trackName, part };
  });
  return { take: { song: loaded.song, parts: named }, diagnostics: [...found, ...diagnostics] };
}

/** Two cues, or a cue with its own source and with another. */
async function cues(
  a: string,
  b: string,
  options: CompareTakesOptions,
  io: Io,
): Promise<readonly [Taken, Taken]> {
  const { map, track, channel, part } = options;
  if (map.length > 0) throw new UsageError('a cue names its maps itself: leave --map out');
  if (track.length > 0 || channel !== undefined)
    throw new UsageError('a cue names its tracks itself: leave --track and --channel out');
  const { value: whole, diagnostics: ofCue } = await loadCue(a, options, io);
  if (!whole)
    return [{ diagnostics: ofCue }, isCueFile(b) ? await ofOwn(b, options, io) : { diagnostics: [] }];
  const cue = chosenParts(whole, part);
  const first = await own(cue, ofCue, options, io);
  return [first, isCueFile(b) ? await ofOwn(b, options, io) : await withOther(cue, b, options, io)];
}

async function ofOwn(file: string, options: CompareTakesOptions, io: Io): Promise<Taken> {
  const { value: whole, diagnostics } = await loadCue(file, options, io);
  return whole ? own(chosenParts(whole, options.part), diagnostics, options, io) : { diagnostics };
}

async function own(
  cue: Cue,
  ofCue: readonly Diagnostic[],
  options: CompareTakesOptions,
  io: Io,
): Promise<Taken> {
  const { value: material, diagnostics } = await loadMaterial(cue, options, io);
  return taken(cue, material, [...ofCue, ...diagnostics]);
}

async function withOther(cue: Cue, file: string, options: CompareTakesOptions, io: Io): Promise<Taken> {
  const { value: song, diagnostics: ofSong } = await loadSong(file, options, io);
  const { value: maps, diagnostics: ofMaps } = await loadCueMaps(cue, options, io);
  return taken(cue, song && maps && { song, maps }, [...ofSong, ...ofMaps]);
}

function taken(cue: Cue, material: CueMaterial | undefined, found: readonly Diagnostic[]): Taken {
  const { value: take, diagnostics } = cueTake(cue, material, found);
  return { ...(take ? { take } : {}), diagnostics };
}
