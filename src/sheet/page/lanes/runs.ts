import type { Columns } from '../columns.js';
import { at, plain } from '../markup.js';
import type { Run } from '../runs.js';
import { type Lane, letterWidth, smallText, textRows } from './lane.js';

/** What is written under some runs: the name, or names where there is no room for each; and what is sent, if there is room. */
export interface RunLabel {
  readonly x: number;
  readonly names: readonly string[];
  readonly sent: string;
}

/**
 * The articulations of a part under its time line: a line as long as each is played, its name, and what is sent for it.
 *
 * @param isNamedAgain whether a run that goes on from the system before has its name here, too
 */
export function runsLane({ columns, y }: Lane, runs: readonly Run[], isNamedAgain: boolean): string {
  const lines = runs.map(({ from, to }) => {
    const left = from < columns.from ? columns.left : columns.xAt(from);
    return `M${at(left)} ${at(y)}H${at(Math.max(left + 12, columns.xAt(to)))}`;
  });
  const labels = labelsOf(runs, columns, isNamedAgain).map(({ x, names, sent }) => {
    const what = sent === '' ? '' : `<tspan class="what" dx="${at(letterWidth)}">${plain(sent)}</tspan>`;
    return `<text class="names" x="${at(x)}" y="${at(y + textRows.part)}" font-size="${smallText}">${plain(names.join(between))}${what}</text>`;
  });
  return lines.length === 0 ? '' : `<g class="runs"><path d="${lines.join('')}"/>${labels.join('')}</g>`;
}

/** Between names of which there is room for all together only. */
const between = ' / ';

/**
 * Where names have no room, runs are named together, in order: as few as have room. Names that have no room even so are left
 * out; pointing at a note tells them.
 */
export function labelsOf(runs: readonly Run[], columns: Columns, isNamedAgain: boolean): readonly RunLabel[] {
  const named = runs.filter(({ from }) => isNamedAgain || from >= columns.from);
  const xs = named.map(({ from, switched }) =>
    from < columns.from
      ? columns.left + letterWidth / 2
      : columns.xAt(Math.max(columns.from, switched?.tick ?? from)),
  );
  const labels: RunLabel[] = [];
  for (let first = 0; first < named.length; ) {
    const label = labelFrom(named, xs, first, columns);
    if (label) labels.push(label);
    first += label?.count ?? 1;
  }
  return labels;
}

/** The label of a run, with as many that follow as it takes to have room. */
function labelFrom(
  runs: readonly Run[],
  xs: readonly number[],
  first: number,
  { from, right }: Columns,
): (RunLabel & { readonly count: number }) | undefined {
  const x = xs[first] ?? 0;
  const names: string[] = [];
  for (let next = first; next < runs.length; ) {
    const { articulation, switched } = runs[next] ?? { articulation: '' };
    if (!names.includes(articulation)) names.push(articulation);
    next += 1;
    const room = (xs[next] ?? right + letterWidth) - x;
    const width = widthOf(names.join(between));
    if (width > room) continue;
    const sent = next === first + 1 && (switched?.tick ?? -1) >= from ? (switched?.sent ?? '') : '';
    const isSaid = sent !== '' && width + widthOf(sent) <= room;
    return { x, names, sent: isSaid ? sent : '', count: next - first };
  }
  return undefined;
}

/** A text's width, with a letter of room behind it. */
function widthOf(text: string): number {
  return (text.length + 1) * letterWidth;
}
