import { type VoicePart, voiceSong } from '../../arrange/index.js';
import { type Cue, type CueMaterial, mapsOf } from '../../cue/index.js';
import { nearest, type Outcome, quoted } from '../../diagnostics/index.js';
import { type CommonOptions, loadSong } from '../context.js';
import { besideCue, loadCue, loadCueMaps } from '../cue-files.js';
import { type Io, UsageError } from '../io.js';
import { deliverFile, newFilePath } from '../new-file.js';
import { trackLines } from '../track-lines.js';

export interface VoiceOptions extends CommonOptions {
  /** The cue that names the parts. */
  readonly parts: string;
  readonly output?: string;
  readonly position: 'open' | 'close';
  /** `top`, `none`, or the name of a part. */
  readonly tune: string;
  readonly divisi?: boolean;
  readonly crossing?: boolean;
}

/** `keyslip voice`: lays the chords of a sketch out for the parts of a cue. The cue's source need not be there yet. */
export async function voiceCommand(sketch: string, options: VoiceOptions, io: Io): Promise<number> {
  const cue = await loadCue(options.parts, options, io);
  const output = newFilePath(options.output, [sketch, options.parts, ...mapFiles(cue.value)]);
  const song = await loadSong(sketch, options, io);
  const parts = await loadParts(cue, options, io);
  const read = [...song.diagnostics, ...parts.diagnostics];
  const { position, crossing = false } = options;
  const voiced =
    song.value && cue.value && parts.value
      ? voiceSong(
          song.value,
          parts.value,
          { position, crossing, tune: tuneOf(options.tune, cue.value) },
          options.parts,
        )
      : undefined;
  const { bytes, diagnostics = [], tracks = [] } = voiced ?? {};
  const lines = trackLines(tracks);
  const json = { parts: options.parts, tracks };
  const made = { input: sketch, output, bytes, diagnostics: [...read, ...diagnostics], lines, json };
  return deliverFile(made, options, io);
}

function mapFiles(cue: Cue | undefined): readonly string[] {
  return cue ? mapsOf(cue).map((spelled) => besideCue(cue, spelled)) : [];
}

/** The parts of a cue that have pitches, under the names of the tracks that the cue looks for. */
async function loadParts(
  { value: cue, diagnostics }: Outcome<Cue>,
  options: VoiceOptions,
  io: Io,
): Promise<Outcome<readonly VoicePart[]>> {
  if (!cue) return { value: undefined, diagnostics };
  const { value: maps, diagnostics: ofMaps } = await loadCueMaps(cue, options, io);
  const parts = maps && cue.parts.flatMap((part) => partOf(part, maps, options.divisi === true));
  return { value: parts, diagnostics: [...diagnostics, ...ofMaps] };
}

function partOf(
  part: Cue['parts'][number],
  maps: CueMaterial['maps'],
  isDivided: boolean,
): readonly VoicePart[] {
  const map = maps.get(part.map.text);
  if (!map || map.family === 'percussion') return [];
  const players = part.players ?? map.players;
  return [
    {
      name: trackName(part),
      range: map.range,
      ...(players === undefined ? {} : { players }),
      ...(isDivided ? { divisi: 'as needed' } : {}),
    },
  ];
}

/** A track that is named by its number has the name of its part. */
function trackName({ track, name }: Cue['parts'][number]): string {
  return typeof track === 'string' ? track : name;
}

function tuneOf(tune: string, { parts }: Cue): 'top' | 'none' | { readonly part: string } {
  if (tune === 'top' || tune === 'none') return tune;
  const part = parts.find(({ name }) => name === tune) ?? parts.find((one) => trackName(one) === tune);
  if (part) return { part: trackName(part) };
  const near = nearest(tune, [...parts.map(({ name }) => name), 'top', 'none']);
  const hint =
    near === undefined
      ? `--tune is top, none, or one of ${parts.map(({ name }) => quoted(name)).join(', ')}`
      : `did you mean ${quoted(near)}?`;
  throw new UsageError(`the cue has no part ${quoted(tune)} for the tune`, hint);
}
