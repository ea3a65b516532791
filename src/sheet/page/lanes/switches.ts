import type { SheetSwitch } from '../../types.js';
import { at, plain } from '../markup.js';
import { type Lane, letterWidth, smallText } from './lane.js';

/** How far under the time line the texts of a part's switches stand, and those of its layers'. */
const rows = { part: 270, layer: 520 } as const;

/**
 * The switches of a part on its time line: a stroke where a switch is sent, a bar as long as its lead, and what is sent.
 * Texts that have no room are left out; pointing at the note tells them.
 */
export function switchesLane({ columns, y }: Lane, switches: readonly SheetSwitch[]): string {
  const free = { part: 0, layer: 0 };
  const drawn = switches.map(({ tick, onsetTick, sent, layer, articulation, leadMs }) => {
    const row = layer === undefined ? 'part' : 'layer';
    const x = columns.xAt(tick);
    const end = onsetTick >= columns.to ? columns.right : columns.xAt(onsetTick);
    const text = layer === undefined ? sent : `${layer}: ${sent}`;
    const shape =
      layer === undefined
        ? `<path class="lead" d="M${at(x)} ${at(y)}H${at(Math.max(end, x + 12))}"/><path class="sent" d="M${at(x)} ${at(y - 90)}V${at(y + 90)}"/>`
        : `<path class="sent" d="M${at(x)} ${at(y + 40)}l60 60l-60 60l-60 -60z"/>`;
    const width = (text.length + 1.5) * letterWidth;
    // At the end of the system a text goes back to the left.
    const left = x + width > columns.right + letterWidth ? x - width : x;
    const isShown = text !== '' && left >= free[row];
    if (isShown) free[row] = left + width;
    const label = isShown
      ? `<text x="${at(left)}" y="${at(y + rows[row])}" font-size="${smallText}">${plain(text)}</text>`
      : '';
    const told = `${articulation}${layer === undefined ? '' : ` of ${layer}`}: ${sent || 'channel'}, ${leadMs.toFixed(1)} ms before its note`;
    return `<g class="switch ${row}"><title>${plain(told)}</title>${shape}${label}</g>`;
  });
  return drawn.join('');
}
