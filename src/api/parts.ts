import { partsOf } from '../compile/index.js';
import { diagnostic, nearest, type Outcome, quoted } from '../diagnostics/index.js';
import type { Part, Song, Track } from '../midi/index.js';

/** Texts of maps by their paths from a map's folder. */
export type BaseTexts = Readonly<Record<string, string>>;

/** The text of a map, and the notes that its library plays. */
export interface GivenMap {
  /** YAML. */
  readonly map: string;
  /** The map's name in diagnostics; `map.yaml` where it is absent. */
  readonly name?: string;
  /** Texts of the files that lend to it (`base`), by their paths from its folder. */
  readonly bases?: BaseTexts;
  /** The track, by its name or counted from 1; the only one with notes where it is absent. */
  readonly track?: string | number;
  /** 1–16; all channels of the track where it is absent. */
  readonly channel?: number;
}

/** The parts that a map is given for: those of its track, or of the only track with notes. */
export function partsFor(
  song: Song,
  { track: wanted, channel }: Pick<GivenMap, 'track' | 'channel'>,
): Outcome<readonly Part[]> {
  const tracks = wanted === undefined ? song.tracks.filter(hasNotes) : tracksNamed(song, wanted);
  const [track, other] = tracks;
  if (other) return refused('several-tracks', song, `${tracks.length} tracks could be meant`, list(tracks));
  if (!track && wanted !== undefined) return unknownTrack(song, wanted);
  const parts = track ? partsOf(track).filter((part) => isOn(part, channel)) : [];
  if (parts.length > 0) return { value: parts, diagnostics: [] };
  const where = channel === undefined ? '' : ` on channel ${channel}`;
  return refused(
    'no-notes',
    song,
    `there are no notes to compile${where}`,
    list(song.tracks.filter(hasNotes)),
  );
}

/** A track's name comes before its number. */
function tracksNamed(song: Song, wanted: string | number): readonly Track[] {
  const named = song.tracks.filter(({ name }) => name === String(wanted));
  return named.length > 0 ? named : song.tracks.filter(({ number }) => number === Number(wanted));
}

function unknownTrack(song: Song, wanted: string | number): Outcome<never> {
  const names = song.tracks.map(({ name }) => name).filter((name) => name !== '');
  const near = nearest(String(wanted), names);
  const hint = near === undefined ? list(song.tracks.filter(hasNotes)) : `did you mean ${quoted(near)}?`;
  return refused('unknown-track', song, `there is no track ${quoted(String(wanted))}`, hint);
}

function refused(
  code: 'no-notes' | 'several-tracks' | 'unknown-track',
  { file }: Song,
  message: string,
  hint: string,
): Outcome<never> {
  return { value: undefined, diagnostics: [diagnostic(code, { kind: 'file', file }, message, hint)] };
}

function list(tracks: readonly Track[]): string {
  const names = tracks.slice(0, 20).map(({ number, name }) => `${number} ${quoted(name)}`);
  return names.length === 0 ? 'no track has notes' : `tracks with notes: ${names.join(', ')}`;
}

function hasNotes(track: Track): boolean {
  return partsOf(track).length > 0;
}

function isOn(part: Part, channel: number | undefined): boolean {
  return channel === undefined || part.channel === channel - 1;
}
