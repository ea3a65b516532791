import { escapeText, type Outcome } from '../../diagnostics/index.js';
import { suggestFor, suggestText } from '../../learn/index.js';
import { loadSong, show } from '../context.js';
import {
  type CuePartOptions,
  compiledCue,
  refuseOptionsOfCues,
  refuseOptionsOfRecordings,
} from '../cue-input.js';
import { isCueFile } from '../cue-name.js';
import type { Io } from '../io.js';
import { type LoadedJobs, loadJobs, type PartOptions } from '../jobs.js';
import { jsonOf, printJson } from '../json.js';

/** The options that say which part is looked at, and with which map. */
export type SuggestOptions = Omit<PartOptions, 'restate' | 'pull'> & CuePartOptions;

/** The parts that are looked at, with the maps that play them. */
type Loaded = Outcome<Pick<LoadedJobs, 'song' | 'jobs'>>;

async function ofRecording(input: string, options: SuggestOptions, io: Io): Promise<Loaded> {
  refuseOptionsOfCues(options);
  const read = await loadSong(input, options, io);
  return loadJobs(read, { ...options, restate: [], pull: [] }, io);
}

/** The parts of a cue as they were played; layers have no take of their own. */
async function ofCue(input: string, options: SuggestOptions, io: Io): Promise<Loaded> {
  refuseOptionsOfRecordings(options);
  const { compiled, diagnostics } = await compiledCue(input, options.part, options, io);
  if (!compiled) return { value: undefined, diagnostics };
  const { planned, parts } = compiled;
  const jobs = parts.filter((_, index) => planned.jobs[index]?.layer === undefined);
  return { value: { song: planned.song, jobs }, diagnostics };
}

/** `keyslip suggest`: says how the lengths of a take fall, and how the bounds of its map lie among them. */
export async function suggestCommand(input: string, options: SuggestOptions, io: Io): Promise<number> {
  const { value: loaded, diagnostics } = isCueFile(input)
    ? await ofCue(input, options, io)
    : await ofRecording(input, options, io);
  if (!loaded) {
    if (options.json) printJson({ format: 'keyslip-suggest/1', input, diagnostics: jsonOf(diagnostics) }, io);
    return show(diagnostics, options, io);
  }
  const looked = loaded.jobs.map(({ part, map }) => ({ part, ...suggestFor(loaded.song, part, map) }));
  const all = [...diagnostics, ...looked.flatMap((one) => one.diagnostics)];
  if (options.json)
    printJson(
      {
        format: 'keyslip-suggest/1',
        input,
        parts: looked.map(({ part, suggested }) => ({
          track: part.track,
          name: part.trackName,
          channel: part.channel + 1,
          // JSON knows no endless: the last bar of a histogram ends nowhere.
          ...JSON.parse(JSON.stringify(suggested)),
        })),
        diagnostics: jsonOf(all),
      },
      io,
    );
  else
    io.out(
      `${looked
        .map(({ part, suggested }) => {
          const heading = `track ${part.track}${part.trackName === '' ? '' : ` "${escapeText(part.trackName)}"`}, channel ${part.channel + 1}`;
          return `${looked.length === 1 ? '' : `${heading}\n`}${suggestText(suggested)}\n`;
        })
        .join('\n')}`,
    );
  return show(all, options, io);
}
