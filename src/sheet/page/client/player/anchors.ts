import {
  type Anchor,
  barAnchors,
  beginOf,
  type HeardNote,
  ordered,
  type PlayerData,
} from '../../../player/index.js';

/** A system of the page. Unit of lengths: that of its view box. */
export interface DrawnSystem {
  readonly svg: SVGSVGElement;
  /** Where its last bar ends. */
  readonly right: number;
}

/** The systems of the page, and the places in them that a line can follow. */
export interface Drawn {
  readonly systems: readonly DrawnSystem[];
  readonly anchors: readonly Anchor[];
}

/** Finds the systems, and in them the heads of notes (`data-note="n3-17"`: note 17 of part 3) and the bars. */
export function drawnIn(root: ParentNode, { bars, notes }: PlayerData): Drawn {
  const systems: DrawnSystem[] = [];
  const heads: Anchor[] = [];
  const edges: Anchor[] = [];
  const begins = new Map(bars.map((bar) => [`bar-${bar.bar}`, beginOf(bar)]));
  for (const svg of root.querySelectorAll<SVGSVGElement>('.system > svg')) {
    const system = systems.length;
    let right = 0;
    for (const rect of svg.querySelectorAll('rect.bar')) {
      const x = lengthOf(rect, 'x');
      right = Math.max(right, x + lengthOf(rect, 'width'));
      const ms = begins.get(rect.id);
      if (ms !== undefined) edges.push({ ms, system, x });
    }
    for (const head of svg.querySelectorAll('circle[data-note]')) {
      const heard = heardOf(head, notes);
      if (heard) heads.push({ ms: heard[0], system, x: lengthOf(head, 'cx') });
    }
    systems.push({ svg, right });
  }
  return { systems, anchors: ordered([...heads, ...barAnchors(heads, edges)]) };
}

/** When the note of a head is heard, and in which bar. */
export function heardOf(head: Element, notes: PlayerData['notes']): HeardNote | undefined {
  const [part = -1, note = -1] = (head.getAttribute('data-note') ?? '').slice(1).split('-').map(Number);
  return notes[part]?.[note];
}

function lengthOf(element: Element, name: string): number {
  return Number(element.getAttribute(name));
}
