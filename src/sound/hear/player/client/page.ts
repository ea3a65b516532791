import type { PlayerData } from '../data.js';
import { startPlayer } from './main.js';

/**
 * Starts the player of a page that has its sound in it: `<script type="application/json" id="heard">` has what the page
 * tells the player, `<script type="text/plain" id="sound">` the sound in base64. Nothing is started where one is absent.
 */
const told = document.querySelector('#heard')?.textContent;
const sound = document.querySelector('#sound');
const text = sound?.textContent;
if (told && text) {
  // it is large, and not needed twice
  sound.remove();
  const data = JSON.parse(told) as PlayerData;
  const bytes = Uint8Array.from(atob(text.trim()), (character) => character.charCodeAt(0));
  void startPlayer(data, bytes.buffer);
}
