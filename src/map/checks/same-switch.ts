import { type Diagnostic, diagnostic, quoted } from '../../diagnostics/index.js';
import { identityOf } from '../switch-messages/index.js';
import type { Articulation } from '../types.js';
import type { MapCheck } from './check.js';

/** same-switch: two articulations that the library could not tell apart, because the same messages reach it. */
export const sameSwitches: MapCheck = ({ articulations }, { isSure }) => {
  const first = new Map<string, string>();
  const diagnostics: Diagnostic[] = [];
  for (const articulation of articulations.values()) {
    if (!isSure(articulation)) continue;
    const sent = messagesOf(articulation);
    const other = first.get(sent);
    if (other === undefined) {
      first.set(sent, articulation.name);
      continue;
    }
    const what = sent === '' ? 'has no switch, and neither has' : 'has the same switch as';
    diagnostics.push(
      diagnostic(
        'same-switch',
        articulation.place,
        `${quoted(articulation.name)} ${what} ${quoted(other)}`,
        'each articulation needs a switch of its own; two names for one sound are two marks in its means',
      ),
    );
  }
  return diagnostics;
};

/** What an articulation sends. The order does not matter: each message has an aspect of its own. */
function messagesOf({ switch: messages }: Articulation): string {
  return messages.map(identityOf).sort().join('\n');
}
