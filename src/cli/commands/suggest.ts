import { escapeText } from '../../diagnostics/index.js';
import { suggestFor, suggestText } from '../../learn/index.js';
import { loadSong, show } from '../context.js';
import type { Io } from '../io.js';
import { loadJobs, type PartOptions } from '../jobs.js';
import { jsonOf, printJson } from '../json.js';

/** The options that say which part is looked at, and with which map. */
export type SuggestOptions = Omit<PartOptions, 'restate' | 'pull'>;

/** `keyslip suggest`: says how the lengths of a take fall, and how the bounds of its map lie among them. */
export async function suggestCommand(input: string, options: SuggestOptions, io: Io): Promise<number> {
  const read = await loadSong(input, options, io);
  const { value: loaded, diagnostics } = await loadJobs(read, { ...options, restate: [], pull: [] }, io);
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
