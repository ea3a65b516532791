import { type Compared, groupChanges } from '../../compare/index.js';
import { type Diagnostic, diagnostic, formatPlace, plural, spellPitch } from '../../diagnostics/index.js';
import type { ArticulationMap } from '../../map/index.js';
import type { Comparison } from '../comparison.js';

/** What changes as diagnostics, each at the line of the new map that decides; the notes are in the message. */
export function changeDiagnostics({ b, parts, examples }: Comparison): readonly Diagnostic[] {
  return [
    ...parts.flatMap(({ file, part, ...compared }) => {
      const track = `track ${part.track}${part.trackName === '' ? '' : ` "${part.trackName}"`}`;
      return ofMusic(`${file}, ${track}`, compared, b);
    }),
    ...examples.flatMap(({ place, number, ...compared }) =>
      ofMusic(`${formatPlace(place)}, example ${number}`, compared, b),
    ),
  ];
}

function ofMusic(music: string, { changed }: Compared, map: ArticulationMap): readonly Diagnostic[] {
  return groupChanges(changed, ({ bar, number }) => bar ?? number).map(({ first, notes }) => {
    const { from, to } = first;
    const rule = to.rule === 'marked' ? undefined : map.rules[to.rule];
    const where = first.bar === null ? `note ${first.number}` : `${first.bar}.${first.beat}`;
    const count = notes === 1 ? '' : `${plural(notes, 'note')}, the first `;
    return diagnostic(
      'changed-articulation',
      rule?.place ?? { kind: 'file', file: map.file },
      `${from.articulation} → ${to.articulation} in ${music}: ${count}${spellPitch(first.pitch, map.middleC)} at ${where}`,
      `${from.reason} → ${to.reason}`,
    );
  });
}
