import type { DrawnSystem } from './system.js';

/** What a page of A4 has for systems, less its margins and the sheet's heading. Unit: mm. As in style.css. */
const papers = {
  landscape: { width: 273, height: 168 },
  upright: { width: 186, height: 255 },
} as const;

/** Between systems. Unit: mm. */
const gap = 4;

/** How the paper lies for printing: so that systems, each whole, cover most of it. */
export function paperFor(systems: readonly Pick<DrawnSystem, 'width' | 'height'>[]): keyof typeof papers {
  const [landscape, upright] = [papers.landscape, papers.upright].map((paper) => coverage(systems, paper));
  return (upright ?? 0) > (landscape ?? 0) ? 'upright' : 'landscape';
}

/** The share of the paper that is covered, for the highest of the systems. */
function coverage(
  systems: readonly Pick<DrawnSystem, 'width' | 'height'>[],
  paper: { readonly width: number; readonly height: number },
): number {
  const shape = systems.reduce((most, { width, height }) => Math.max(most, height / Math.max(1, width)), 0);
  const width = Math.min(paper.width, paper.height / shape);
  const height = width * shape;
  const many = Math.max(1, Math.floor((paper.height + gap) / (height + gap)));
  return (many * width * height) / (paper.width * paper.height);
}
