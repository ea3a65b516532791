import type { Findings } from '../diagnostic.js';
import { childrenOf, type XmlElement } from '../xml/element.js';

/** A part's bars, as elements of the file, in order. */
export interface PartElement {
  readonly id: string;
  readonly measures: readonly XmlElement[];
}

/** The parts of a MusicXML root of either kind: partwise as it is, timewise turned (as MusicXML 4.0's parttime.xsl does). */
export function partsOfRoot(root: XmlElement, found: Findings): readonly PartElement[] {
  if (root.name === 'score-partwise')
    return childrenOf(root, 'part').map((part) => ({
      id: part.attributes.get('id') ?? '',
      measures: childrenOf(part, 'measure'),
    }));
  const measures = childrenOf(root, 'measure');
  const ids = new Set(measures.flatMap((one) => childrenOf(one, 'part').map(idOf)));
  if (ids.size === 0)
    found.error('score-missing', root, 'the score has no parts', 'export it again, with its parts');
  return [...ids].map((id) => ({
    id,
    measures: measures.map((measure) => {
      const part = childrenOf(measure, 'part').find((one) => idOf(one) === id);
      return { ...measure, children: part?.children ?? [] };
    }),
  }));
}

function idOf(part: XmlElement): string {
  return part.attributes.get('id') ?? '';
}
