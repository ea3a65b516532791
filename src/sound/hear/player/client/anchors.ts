import type { PlayerData } from '../data.js';
import { type Anchor, ordered } from '../line.js';

/** The systems of the page, and the heads in them that a line can follow. */
export interface Drawn {
  readonly systems: readonly SVGSVGElement[];
  readonly anchors: readonly Anchor[];
}

/** Finds the heads of notes (`data-note="n3-17"`: note 17 of part 3) and the systems in which they stand. */
export function drawnIn(root: ParentNode, { notes }: PlayerData): Drawn {
  const systems: SVGSVGElement[] = [];
  const anchors: Anchor[] = [];
  for (const head of root.querySelectorAll('circle[data-note]')) {
    const svg = head instanceof SVGCircleElement ? head.ownerSVGElement : null;
    const heard = heardOf(head, notes);
    if (!svg || !heard) continue;
    if (!systems.includes(svg)) systems.push(svg);
    anchors.push({ ms: heard[0], system: systems.indexOf(svg), x: Number(head.getAttribute('cx')) });
  }
  return { systems, anchors: ordered(anchors) };
}

/** When the note of a head is heard, and in which bar. */
export function heardOf(
  head: Element,
  notes: PlayerData['notes'],
): readonly [ms: number, bar: number] | undefined {
  const [part = -1, note = -1] = (head.getAttribute('data-note') ?? '').slice(1).split('-').map(Number);
  return notes[part]?.[note];
}
