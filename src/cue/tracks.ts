import { partsOf } from '../compile/index.js';
import { type Diagnostic, diagnostic, nearest, type Outcome, quoted } from '../diagnostics/index.js';
import type { Part, Song, Track } from '../midi/index.js';
import type { CuePart } from './types.js';

/** The notes of the source that a part of a cue means: one part of the song for each channel. */
export function partsFor(song: Song, wanted: CuePart): Outcome<readonly Part[]> {
  const track =
    wanted.track === undefined ? trackOfChannel(song, wanted) : trackFor(song, wanted, wanted.track);
  if (!('columns' in track)) return { value: undefined, diagnostics: [track] };
  const all = partsOf(track);
  const { channel, trackPlace: place } = wanted;
  const parts = channel === undefined ? all : all.filter((part) => part.channel === channel - 1);
  const channels = all.map((part) => part.channel + 1).join(', ');
  if (parts.length === 0) {
    const where = channel === undefined ? '' : ` on channel ${channel}`;
    const found: Diagnostic = diagnostic(
      'no-notes',
      place,
      `track ${track.number} ${quoted(track.name)} has no notes${where}`,
      channels === '' ? listOfTracks(song) : `it has notes on channel ${channels}`,
    );
    return { value: undefined, diagnostics: [found] };
  }
  return { value: parts, diagnostics: parts.length > 1 ? [severalChannels(wanted, channels)] : [] };
}

/** The track that has notes on the channel of a part, where the part does not say which. */
function trackOfChannel(song: Song, { channel = 1, trackPlace: place }: CuePart): Track | Diagnostic {
  const found = song.tracks.filter((track) => partsOf(track).some((part) => part.channel === channel - 1));
  const [track, second] = found;
  if (track && !second) return track;
  if (!track) {
    const channels = new Set(song.tracks.flatMap((one) => partsOf(one).map((part) => part.channel + 1)));
    const listed = [...channels].sort((a, b) => a - b).join(', ');
    const hint = listed === '' ? listOfTracks(song) : `it has notes on channel ${listed}`;
    return diagnostic('no-notes', place, `the source has no notes on channel ${channel}`, hint);
  }
  const names = found.map(({ number, name }) => `${number} ${quoted(name)}`).join(', ');
  return diagnostic(
    'unknown-track',
    place,
    `several tracks have notes on channel ${channel}: ${names}`,
    'say which with track: its name or number',
  );
}

function severalChannels({ trackPlace: place, name }: CuePart, channels: string): Diagnostic {
  return diagnostic(
    'several-channels',
    place,
    `the track of ${quoted(name)} has notes on channels ${channels}; all of them are compiled`,
    'channel: NUMBER takes one of them only',
  );
}

function trackFor(
  song: Song,
  { trackPlace: place, channel }: CuePart,
  wanted: string | number,
): Track | Diagnostic {
  const said = typeof wanted === 'number' ? String(wanted) : quoted(wanted);
  const named = song.tracks.filter(({ name }) => name === wanted);
  const isNumber = typeof wanted === 'number' || /^\d{1,5}$/u.test(wanted);
  const [first, second] = named;
  const found = first ?? (isNumber ? song.tracks[Number(wanted) - 1] : undefined);
  const unknown = (message: string, hint: string) => diagnostic('unknown-track', place, message, hint);
  if (second) {
    const numbers = named.map(({ number }) => number).join(', ');
    return unknown(`several tracks are named ${said}`, `say which by its number: ${numbers}`);
  }
  if (found) return found;
  const near =
    typeof wanted === 'number'
      ? undefined
      : nearest(
          wanted,
          song.tracks.map(({ name }) => name),
        );
  const all =
    song.format === 0 && channel !== undefined
      ? 'its only track has all the channels (format 0): leave track out, and channel says which'
      : listOfTracks(song);
  return unknown(
    `the source has no track ${said}`,
    near === undefined ? all : `did you mean ${quoted(near)}?`,
  );
}

function listOfTracks(song: Song): string {
  const withNotes = song.tracks.filter((track) => partsOf(track).length > 0);
  const names = withNotes.slice(0, 20).map(({ number, name }) => `${number} ${quoted(name)}`);
  return `tracks with notes are ${names.join(', ') || 'none'}${withNotes.length > 20 ? ', …' : ''}`;
}
