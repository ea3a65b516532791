import { plural } from '../../diagnostics/index.js';
import type { Sheet, SheetPart } from '../types.js';
import { plain } from './markup.js';

/** A table of the parts: library, map, how many notes each articulation has and what is sent for it, and layers where there are any. */
export function partsMarkup({ parts }: Pick<Sheet, 'parts'>): string {
  const columns = [
    { heading: 'Library', say: ({ library, instrument }: SheetPart) => `${library}, ${instrument}` },
    { heading: 'Map', say: ({ mapFile }: SheetPart) => mapFile },
    { heading: 'Notes and switches', say: counted },
    ...(parts.some((part) => part.layers.length > 0) ? [{ heading: 'Layers', say: layers }] : []),
  ];
  const rows = parts.map((part) => {
    const cells = columns.map(({ say }) => `<td>${plain(say(part))}</td>`);
    return `<tr><th scope="row">${plain(part.name)}</th>${cells.join('')}</tr>`;
  });
  const headings = ['Part', ...columns.map(({ heading }) => heading)].map(
    (heading) => `<th scope="col">${heading}</th>`,
  );
  return `<section aria-labelledby="parts"><h2 id="parts">Parts</h2><div class="wide" tabindex="0" role="group" aria-labelledby="parts"><table><thead><tr>${headings.join('')}</tr></thead><tbody>${rows.join('')}</tbody></table></div></section>`;
}

function counted({ notes, switches }: SheetPart): string {
  const counts = new Map<string, number>();
  for (const { articulation } of notes) counts.set(articulation, (counts.get(articulation) ?? 0) + 1);
  const sent = new Map(
    switches.flatMap((one) =>
      one.layer === undefined && one.sent !== '' ? [[one.articulation, one.sent]] : [],
    ),
  );
  const said = [...counts].map(([name, count]) => {
    const what = sent.get(name);
    return `${count} ${name}${what === undefined ? '' : ` (${what})`}`;
  });
  return [...said, plural(switches.length, 'switch', 'switches')].join(', ');
}

function layers({ layers: of }: SheetPart): string {
  return of.map(({ name, library, notes }) => `${name}: ${library}, ${plural(notes, 'note')}`).join('; ');
}
