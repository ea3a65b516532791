import { plural } from '../diagnose/plural.js';
import type { Sheet, SheetPart } from '../model/sheet.js';
import { plain } from './markup.js';

/** A table of the parts: library, map, and how many notes each articulation has. */
export function partsMarkup({ parts }: Pick<Sheet, 'parts'>): string {
  const rows = parts.map((part) => {
    const cells = [
      part.name,
      `${part.library}, ${part.instrument}`,
      part.mapFile,
      counted(part),
      layers(part),
    ];
    const [name, ...others] = cells.map(plain);
    return `<tr><th scope="row">${name}</th>${others.map((cell) => `<td>${cell}</td>`).join('')}</tr>`;
  });
  return `<section aria-labelledby="parts"><h2 id="parts">Parts</h2><div class="wide"><table><thead><tr><th scope="col">Part</th><th scope="col">Library</th><th scope="col">Map</th><th scope="col">Notes and switches</th><th scope="col">Layers</th></tr></thead><tbody>${rows.join('')}</tbody></table></div></section>`;
}

function counted({ notes, switches }: SheetPart): string {
  const counts = new Map<string, number>();
  for (const { articulation } of notes) counts.set(articulation, (counts.get(articulation) ?? 0) + 1);
  const said = [...counts].map(([name, count]) => `${count} ${name}`);
  return [...said, plural(switches.length, 'switch', 'switches')].join(', ');
}

function layers({ layers: of }: SheetPart): string {
  return of.map(({ name, library, notes }) => `${name}: ${library}, ${plural(notes, 'note')}`).join('; ');
}
