import type { PlayerData } from './data.js';

/**
 * What a page needs in it for its player to start: what it is told, and its sound in base64. Neither can end its element:
 * base64 has no `<`, and in JSON it is written as an escape.
 */
export function playerMarkup(data: PlayerData, sound: Uint8Array): string {
  const told = JSON.stringify(data).replaceAll('<', '\\u003c');
  const base64 = Buffer.from(sound.buffer, sound.byteOffset, sound.byteLength).toString('base64');
  return `<script type="application/json" id="heard">${told}</script>
<script type="text/plain" id="sound">${base64}</script>
`;
}
