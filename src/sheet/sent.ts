import { spellPitch } from '../diagnostics/index.js';
import type { ArticulationMap, SwitchMessage } from '../map/index.js';

/** What an articulation sends, in a few words: "C-2", "CC 20 = 64 and D-2", "channel 7". */
export function sentBy(map: ArticulationMap, articulation: string): string {
  const messages = map.articulations.get(articulation)?.switch ?? [];
  return messages.map((message) => say(message, map.middleC)).join(' and ');
}

function say(message: SwitchMessage, middleC: ArticulationMap['middleC']): string {
  switch (message.kind) {
    case 'note':
      return spellPitch(message.key, middleC);
    case 'controller':
      return `CC ${message.controller} = ${message.value}`;
    case 'program':
      return message.bank
        ? `program ${message.program}, bank ${message.bank.join('/')}`
        : `program ${message.program}`;
    case 'channel':
      return `channel ${message.channel + 1}`;
  }
}
