import type { ChangedNote, Verdict } from './changes.js';

/** Notes that change in the same way, near each other. */
export interface ChangeGroup {
  readonly first: ChangedNote;
  readonly last: ChangedNote;
  readonly notes: number;
}

/**
 * Groups changes of one kind (the same articulations, for the same rules) whose places follow each other without a gap,
 * whatever changes of other kinds lie between them. In the order of their first notes.
 *
 * @param positionOf the number of a note's bar, or of the note itself; ascending
 */
export function groupChanges(
  changed: Iterable<ChangedNote>,
  positionOf: (note: ChangedNote) => number,
): readonly ChangeGroup[] {
  const groups: ChangeGroup[] = [];
  const latest = new Map<string, number>();
  for (const note of changed) {
    const kind = `${kindOf(note.from)}\n${kindOf(note.to)}`;
    const index = latest.get(kind) ?? -1;
    const group = groups[index];
    if (group && positionOf(note) <= positionOf(group.last) + 1)
      groups[index] = { first: group.first, last: note, notes: group.notes + 1 };
    else {
      latest.set(kind, groups.length);
      groups.push({ first: note, last: note, notes: 1 });
    }
  }
  return groups;
}

/** Names and marks have no line breaks in them. */
function kindOf({ articulation, rule, insteadOf, mark }: Verdict): string {
  return `${articulation}\n${rule}\n${insteadOf}\n${mark}`;
}
