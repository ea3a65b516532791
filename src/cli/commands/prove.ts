import { type Job, realiseParts } from '../../compile/index.js';
import { proofOf } from '../../compile/proof.js';
import type { Diagnostic } from '../../model/diagnostic.js';
import type { Song } from '../../model/song.js';
import { ownChannel, proofJson, proofText, stripSwitches } from '../../prove/index.js';
import { jsonOf, loadSong, printJson, show } from '../context.js';
import { exit, type Io } from '../io.js';
import { type LoadedJobs, loadJobs, type PartOptions } from '../jobs.js';

export interface ProveOptions extends PartOptions {
  readonly against?: string;
}

/** `keyslip prove`: plays a compiled file to a model of the library, and says whether it sounds as meant. */
export async function proveCommand(file: string, options: ProveOptions, io: Io): Promise<number> {
  const read = await loadSong(file, options, io);
  const output = read.value;
  const isCompared = options.against !== undefined;
  const { value: loaded, diagnostics: found } = isCompared
    ? await loadJobs(await loadSong(options.against ?? '', options, io), options, io)
    : await loadJobs(read, { ...options, ...noTiming }, io);
  const diagnostics = isCompared ? [...read.diagnostics, ...found] : found.filter(isOfTheMusic);
  if (!output || !loaded) {
    if (options.json) printJson({ file, diagnostics: jsonOf(diagnostics) }, io);
    return show(diagnostics, options, io);
  }
  const { song, jobs } = isCompared ? loaded : stripped(loaded);
  const realised = realiseParts(song, jobs);
  const proof = proofOf(output, song, realised, isCompared);
  if (options.json) printJson(proofJson(proof), io);
  else if (!options.quiet || proof.violations.length > 0) io.out(proofText(proof));
  const status = show([...diagnostics, ...realised.diagnostics], options, io);
  return proof.violations.length > 0 ? exit.errors : status;
}

/** Several channels are no surprise in a file whose map sends notes to channels. */
function isOfTheMusic({ code }: Diagnostic): boolean {
  return code !== 'several-channels';
}

/** Without the input there is nothing that timing options could be measured by: the music is taken as it stands. */
const noTiming = { compensate: false, joins: false, pull: [], preroll: 0 } as const;

/** The song and its jobs with the maps' switches taken out, to decide anew what is meant. */
function stripped({ song, jobs }: LoadedJobs): { readonly song: Song; readonly jobs: readonly Job[] } {
  let music = song;
  const own = new Map<string, Job>();
  for (const { part, map } of jobs) {
    const track = music.tracks[part.track - 1];
    const routes = [...map.articulations.values()].some((articulation) =>
      articulation.switch.some(({ kind }) => kind === 'channel'),
    );
    const channel = routes && track ? ownChannel(track, map) : undefined;
    const moved = { ...part, channel: channel ?? part.channel };
    const key = `${moved.track} ${moved.channel}`;
    if (own.has(key)) continue;
    own.set(key, { part: moved, map });
    const without = stripSwitches(music, moved, map);
    if (without)
      music = {
        ...music,
        tracks: music.tracks.map((one) => (one.number === without.number ? without : one)),
      };
  }
  return { song: music, jobs: [...own.values()] };
}
