import { type Compared, groupChanges } from '../../compare/index.js';
import {
  type Diagnostic,
  diagnostic,
  formatPlace,
  plural,
  quoted,
  spellPitch,
} from '../../diagnostics/index.js';
import type { ArticulationMap } from '../../map/index.js';
import type { Comparison } from '../comparison.js';
import { lostText } from '../libraries-text.js';

/** What changes as diagnostics, each at the line of the new map that decides; the notes are in the message. What another
 * library has nothing for stands before. */
export function changeDiagnostics({
  a,
  b,
  parts,
  examples,
  articulations,
}: Comparison): readonly Diagnostic[] {
  const lost = articulations.becomes?.filter(({ to }) => to === null) ?? [];
  return [
    ...lost.map(({ from }) => meaningLost(from, a, b)),
    ...parts.flatMap(({ file, part, ...compared }) => {
      const track = `track ${part.track}${part.trackName === '' ? '' : ` "${part.trackName}"`}`;
      return ofMusic(`${file}, ${track}`, compared, b);
    }),
    ...examples.flatMap(({ place, number, ...compared }) =>
      ofMusic(`${formatPlace(place)}, example ${number}`, compared, b),
    ),
  ];
}

/** meaning-lost: nothing in the map of another library stands for an articulation. */
export function meaningLost(name: string, a: ArticulationMap, b: ArticulationMap): Diagnostic {
  return diagnostic(
    'meaning-lost',
    a.articulations.get(name)?.place ?? { kind: 'file', file: a.file },
    `${name} is lost in ${quoted(`${b.library}, ${b.instrument}`)}: ${lostText(name, a)}`,
    'where the library has such a sound, say so with means: in its map',
  );
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
