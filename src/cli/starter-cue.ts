import { partsOf } from '../compile/index.js';
import { namesByChannel } from '../cue/index.js';
import { spellUnsafe } from '../diagnostics/index.js';
import type { Song, Track } from '../midi/index.js';
import { firstProgram } from '../music/index.js';
import { guessMap, type Told, unknownMap } from './guess-map.js';

/**
 * What `keyslip init --cue` writes: a commented cue with a part for each track that has notes, and for each
 * channel of a track that has several. Each names the map that it is likely to need.
 *
 * @param source the recording's path from the folder of the cue
 * @param maps paths of the maps that are there, from that folder too
 */
export function starterCue(song: Song, source: string, maps: readonly string[] = []): string {
  const tracks = song.tracks.filter((track) => partsOf(track).length > 0);
  const seen = new Map<string, number>();
  const parts = tracks.flatMap((track) => {
    const channels = partsOf(track).map(({ channel }) => channel + 1);
    const [only, second] = channels;
    if (second === undefined || only === undefined) {
      const told = { name: track.name, ...programOf(track, only ?? 1) };
      return [part({ track, shown: partName(track.name, track.number, seen), told }, song, maps)];
    }
    const names = namesByChannel(track);
    return channels.map((channel) => {
      const named = names
        .get(channel - 1)
        ?.trim()
        .slice(0, 95);
      const where = `${track.name.trim().slice(0, 80) || `Track ${track.number}`}, channel ${channel}`;
      const shown = partName(named || where, track.number, seen);
      const told = { ...(named ? { name: named } : { name: '', channel }), ...programOf(track, channel) };
      return part({ track, shown, channel, told }, song, maps);
    });
  });
  return `# yaml-language-server: $schema=cue.schema.json
# (An editor completes and explains keys by that file; keyslip schema cue > cue.schema.json writes it, if it is not there)
#
# A cue tells how ALL tracks of a recording become sound. Name your maps below, then: keyslip cue THIS-FILE
format: keyslip-cue/1
source: ${quotedYaml(source)}
output: ${quotedYaml(source.replace(/(\.(midi?|musicxml|mxl|mei))?$/iu, '.switched.mid'))}

# What holds for every part that does not say otherwise.
# defaults:
#   timing: {compensate: true, joins: true}

# Each part needs the map of the library that plays it; keyslip init ${unknownMap} writes one to begin from.
# The maps below are guesses by the names of tracks; parts of one kind share one.
# A part may also have:
#   timing: {compensate: true, joins: true, pull: 60%, roll: 18ms, loosen: 8ms}
#   level: -3                    # dB
#   seat: -0.4                   # -1 left, 0 the middle, 1 right
#   players: 2                   # where the library recorded another number
#   dynamics: {source: keep}     # keep, shape or marks
#   layers:
#     - {name: bite, map: ${unknownMap}, on: {when: {velocity: {from: 100}}}}
parts:
${parts.join('') || '  [] # the recording has no notes\n'}`;
}

/** A part as it is to be written. */
interface StarterPart {
  readonly track: Track;
  readonly shown: string;
  /** 1–16. */
  readonly channel?: number;
  readonly told: Told;
}

function part({ track, shown, channel, told }: StarterPart, song: Song, maps: readonly string[]): string {
  const { number, name } = track;
  const isOwn = name.trim() !== '' && song.tracks.every((other) => other === track || other.name !== name);
  const { map, others } = guessMap(told, maps);
  const also = others.length === 0 ? '' : ` # or ${others.map(pathYaml).join(', ')}`;
  return `  - name: ${quotedYaml(shown)}
    track: ${isOwn ? quotedYaml(name) : number}
${channel === undefined ? '' : `    channel: ${channel}\n`}    map: ${pathYaml(map)}${also}
`;
}

function programOf(track: Track, channel: number): Pick<Told, 'program'> {
  const program = firstProgram(track, channel - 1);
  return program === undefined ? {} : { program };
}

/** A path, in quotes only where YAML could take it for something else. */
function pathYaml(path: string): string {
  return /^[A-Za-z][\w./-]*$/u.test(path) ? path : quotedYaml(path);
}

/** A track's name, or its number; with the number behind it where a track before has that name too. */
function partName(name: string, number: number, seen: Map<string, number>): string {
  const plain = name.trim().slice(0, 95) || `Track ${number}`;
  const isTaken = seen.has(plain);
  seen.set(plain, number);
  return isTaken ? `${plain} (${number})` : plain;
}

/** JSON is YAML; what YAML does not take raw, and what nobody sees or what turns a line round, is escaped as YAML does. */
function quotedYaml(text: string): string {
  const escaped = spellUnsafe(JSON.stringify(text), (codePoint) => {
    const digits = codePoint.toString(16);
    return digits.length > 4 ? `\\U${digits.padStart(8, '0')}` : `\\u${digits.padStart(4, '0')}`;
  });
  return escaped.replace(/[\ufffe\uffff]/gu, (character) => `\\u${character.charCodeAt(0).toString(16)}`);
}
