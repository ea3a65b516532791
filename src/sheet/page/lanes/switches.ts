import type { SheetSwitch } from '../../types.js';
import { at, plain } from '../markup.js';
import { type Lane, letterWidth, smallText, textRows } from './lane.js';

/**
 * The switches of a part on its time line: a stroke where a switch is sent, and a bar as long as its lead; what is sent stands
 * beside the articulation's name. Those of layers have a row of their own, with what is sent. Texts that have no room are
 * left out; pointing at the note tells them.
 */
export function switchesLane({ columns, y }: Lane, switches: readonly SheetSwitch[]): string {
  let free = 0;
  const drawn = switches.map((one) => {
    const { tick, onsetTick, sent, layer, articulation, leadMs } = one;
    const x = columns.xAt(tick);
    const told = `${articulation}${layer === undefined ? '' : ` of ${layer}`}: ${sent || 'channel'}, ${leadMs.toFixed(1)} ms before its note`;
    if (layer === undefined) {
      const end = onsetTick >= columns.to ? columns.right : columns.xAt(onsetTick);
      const shape = `<path class="lead" d="M${at(x)} ${at(y)}H${at(Math.max(end, x + 12))}"/><path class="sent" d="M${at(x)} ${at(y - 90)}V${at(y + 90)}"/>`;
      return `<g class="switch part"><title>${plain(told)}</title>${shape}</g>`;
    }
    const text = `${layer}: ${sent}`;
    const width = (text.length + 1.5) * letterWidth;
    // At the end of the system a text goes back to the left.
    const left = x + width > columns.right + letterWidth ? x - width : x;
    const isShown = left >= free;
    if (isShown) free = left + width;
    const label = isShown
      ? `<text x="${at(left)}" y="${at(y + textRows.layer)}" font-size="${smallText}">${plain(text)}</text>`
      : '';
    return `<g class="switch layer"><title>${plain(told)}</title><path class="sent" d="M${at(x)} ${at(y + 40)}l60 60l-60 60l-60 -60z"/>${label}</g>`;
  });
  return drawn.join('');
}
