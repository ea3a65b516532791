import { type Diagnostic, diagnostic, quoted } from '../../diagnostics/index.js';
import {
  aspectOf,
  covers,
  isLasting,
  namedAspectOf,
  type SwitchMessage,
  setsMore,
} from '../switch-messages/index.js';
import type { Articulation } from '../types.js';
import type { MapCheck } from './check.js';

/**
 * hidden-articulation: everything that one articulation sets, another sets too, and a named aspect or a bank besides, which
 * the first leaves as it was. After the other, the library plays the other for both. Aspects without a name are told as
 * aspect-left-behind; momentary keys are let go.
 */
export const hiddenArticulations: MapCheck = ({ articulations, switching }, { isSure }) => {
  const all = [...articulations.values()];
  if (!all.every(isSure)) return [];
  const isMomentary = switching.notes === 'momentary';
  return all.flatMap((hidden): Diagnostic[] => {
    const other = all.find((one) => one !== hidden && hides(one, hidden, isMomentary));
    if (!other) return [];
    return [
      diagnostic(
        'hidden-articulation',
        hidden.place,
        `after ${quoted(other.name)}, ${quoted(hidden.name)} sounds like it: all that it sets is set already`,
        `let ${quoted(hidden.name)} say what it needs of the aspect or the bank too`,
      ),
    ];
  });
};

function hides(other: Articulation, hidden: Articulation, isMomentary: boolean): boolean {
  const byAspect = new Map(other.switch.map((message) => [aspectOf(message), message]));
  const isSame = hidden.switch.every((message) => {
    const twin = byAspect.get(aspectOf(message));
    return twin !== undefined && covers(twin, message);
  });
  if (!isSame || hidden.switch.length === 0) return false;
  const aspects = new Set(hidden.switch.map(aspectOf));
  const more = other.switch.filter((message) => !aspects.has(aspectOf(message)));
  const isIndependent = (message: SwitchMessage) =>
    namedAspectOf(message) !== undefined && isLasting(message, isMomentary);
  const isOpen = hidden.switch.some((message) => {
    const twin = byAspect.get(aspectOf(message));
    return twin !== undefined && setsMore(twin, message);
  });
  return more.length > 0 ? more.every(isIndependent) : isOpen;
}
