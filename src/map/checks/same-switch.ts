import { type Diagnostic, diagnostic, quoted } from '../../diagnostics/index.js';
import { identityOf } from '../switch-messages/index.js';
import type { Articulation } from '../types.js';
import type { MapCheck } from './check.js';

/** same-switch: two articulations that the library could not tell apart, because the same messages reach it. */
export const sameSwitches: MapCheck = ({ articulations }, { isSure }) => {
  const earlier = new Map<string, Articulation[]>();
  const diagnostics: Diagnostic[] = [];
  for (const articulation of articulations.values()) {
    if (!isSure(articulation)) continue;
    const sent = sentFor(articulation);
    const alike = earlier.get(sent) ?? [];
    const other = alike.find((one) => meet(one, articulation));
    earlier.set(sent, [...alike, articulation]);
    if (other) diagnostics.push(sameAs(articulation, other));
  }
  return diagnostics;
};

function sameAs(articulation: Articulation, other: Articulation): Diagnostic {
  const isPlain = sentFor(articulation) === '';
  const isByKey = articulation.switch.length === 0 && articulation.key !== undefined;
  const isByVelocity = articulation.velocity !== undefined || other.velocity !== undefined;
  const what = isByVelocity
    ? 'has velocities in common with'
    : isPlain
      ? 'has no switch, and neither has'
      : isByKey
        ? 'goes out on the same key as'
        : 'has the same switch as';
  return diagnostic(
    'same-switch',
    articulation.place,
    `${quoted(articulation.name)} ${what} ${quoted(other.name)}`,
    isByVelocity
      ? 'where velocity picks the recording, each needs a range of its own'
      : `each articulation needs a ${isByKey ? 'key' : 'switch'} of its own; two names for one sound are two marks in its means`,
  );
}

/** What reaches the library for an articulation, velocities aside. The order does not matter: each message has an aspect of its own. */
function sentFor({ switch: messages, key }: Articulation): string {
  return [...messages.map(identityOf).sort(), ...(key === undefined ? [] : [`on key ${key}`])].join('\n');
}

/** Whether some velocity may reach the library for both. */
function meet(one: Articulation, other: Articulation): boolean {
  const [[low, high], [otherLow, otherHigh]] = [velocitiesOf(one), velocitiesOf(other)];
  return low <= otherHigh && otherLow <= high;
}

function velocitiesOf({ velocity }: Articulation): readonly [number, number] {
  return velocity?.into ?? [1, 127];
}
