import { partsOf } from '../compile/index.js';
import { spellUnsafe } from '../diagnostics/index.js';
import type { Song, Track } from '../midi/index.js';

/** The map that the parts of a starter name; `keyslip init` writes one. */
const mapName = 'my-library.yaml';

/**
 * What `keyslip init --cue` writes: a commented cue with a part for each track that has notes, and for each
 * channel of a track that has several.
 *
 * @param source the recording's path from the folder of the cue
 */
export function starterCue(song: Song, source: string): string {
  const tracks = song.tracks.filter((track) => partsOf(track).length > 0);
  const seen = new Map<string, number>();
  const parts = tracks.flatMap((track) => {
    const channels = partsOf(track).map(({ channel }) => channel + 1);
    const [only, second] = channels;
    if (second === undefined || only === undefined)
      return [part(track, partName(track.name, track.number, seen), song)];
    return channels.map((channel) => {
      const shown = `${track.name.trim().slice(0, 80) || `Track ${track.number}`}, channel ${channel}`;
      return part(track, partName(shown, track.number, seen), song, channel);
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

# Each part needs the map of the library that plays it; keyslip init ${mapName} writes one to begin from.
# A part may also have:
#   timing: {compensate: true, joins: true, pull: 60%, roll: 18ms, loosen: 8ms}
#   level: -3                    # dB
#   seat: -0.4                   # -1 left, 0 the middle, 1 right
#   players: 2                   # where the library recorded another number
#   dynamics: {source: keep}     # keep, shape or marks
#   layers:
#     - {name: bite, map: ${mapName}, on: {when: {velocity: {from: 100}}}}
parts:
${parts.join('') || '  [] # the recording has no notes\n'}`;
}

function part(track: Track, shown: string, song: Song, channel?: number): string {
  const { number, name } = track;
  const isOwn = name.trim() !== '' && song.tracks.every((other) => other === track || other.name !== name);
  return `  - name: ${quotedYaml(shown)}
    track: ${isOwn ? quotedYaml(name) : number}
${channel === undefined ? '' : `    channel: ${channel}\n`}    map: ${mapName}
`;
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
