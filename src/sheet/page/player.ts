import { type PlayerData, playerData, type SheetSound } from '../player/index.js';
import type { Sheet } from '../types.js';
import { playerScript, playerStyle } from './assets.generated.js';
import { jsonMarkup } from './markup.js';

/** What a page has in it for its player; nothing where it has no sound. */
export interface PagePlayer {
  /** Style and script, for the page to let in. */
  readonly styles: readonly string[];
  readonly scripts: readonly string[];
  /** What the player is told, and its sound. */
  readonly data: string;
}

/** The sound stands in the page in base64, which cannot end its element. */
export function pagePlayer(sheet: Pick<Sheet, 'parts' | 'clock'>, sound: SheetSound | undefined): PagePlayer {
  if (!sound) return { styles: [], scripts: [], data: '' };
  const { ogg } = sound;
  const told: PlayerData = playerData(sheet, sound);
  const base64 = Buffer.from(ogg.buffer, ogg.byteOffset, ogg.byteLength).toString('base64');
  const data = `<script type="application/json" id="heard">${jsonMarkup(told)}</script>
<script type="text/plain" id="sound">${base64}</script>
`;
  return { styles: [playerStyle], scripts: [playerScript], data };
}
