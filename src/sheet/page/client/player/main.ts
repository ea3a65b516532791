import type { PlayerData } from '../../../player/index.js';
import { startPlayer } from './player.js';

/**
 * Starts the player of a page that has its sound in it: `<script type="application/json" id="heard">` has what the page
 * tells the player, `<script type="text/plain" id="sound">` the sound in base64. Nothing is started where one is absent.
 */
const told = document.querySelector('#heard')?.textContent;
const text = document.querySelector('#sound');
if (told && text) {
  const base64 = text.textContent.trim();
  startPlayer(JSON.parse(told) as PlayerData, (base64.length * 3) / 4, () => {
    // it is large, and not needed twice
    text.remove();
    return Uint8Array.from(atob(base64), (character) => character.charCodeAt(0)).buffer;
  });
}
