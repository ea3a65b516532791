import { type Diagnostic, diagnostic, quoted } from '../../diagnostics/index.js';
import { aspectOf, formatAspect, isLasting, namedAspectOf, takenBy } from '../switch-messages/index.js';
import type { Articulation, ArticulationMap } from '../types.js';
import type { MapCheck } from './check.js';

/**
 * aspect-left-behind: an aspect that some articulations of a channel set and others do not, so that what was last set there
 * goes on under the others. Groups are meant to be independent, and momentary keys are let go.
 */
export const aspectsLeftBehind: MapCheck = (map, { isSure }) => {
  const articulations = [...map.articulations.values()];
  // One that cannot be told may set anything.
  if (!articulations.every(isSure)) return [];
  const byChannel = new Map<number | undefined, Articulation[]>();
  for (const articulation of articulations) {
    // A stroke on a key of its own sounds whatever is switched.
    if (articulation.key !== undefined && articulation.switch.length === 0) continue;
    const channel = articulation.switch
      .map((message) => takenBy(message).channel)
      .find((one) => one !== undefined);
    byChannel.set(channel, [...(byChannel.get(channel) ?? []), articulation]);
  }
  return [...byChannel.values()].flatMap((together) => leftBehind(map, together));
};

function leftBehind(map: ArticulationMap, articulations: readonly Articulation[]): readonly Diagnostic[] {
  const setting = new Map<string, { readonly what: string; readonly setters: Set<Articulation> }>();
  for (const articulation of articulations)
    for (const message of lastingMessages(map, articulation)) {
      const aspect = aspectOf(message);
      const set = setting.get(aspect) ?? { what: formatAspect(message), setters: new Set() };
      set.setters.add(articulation);
      setting.set(aspect, set);
    }
  return [...setting.values()].flatMap(({ what, setters }): Diagnostic[] => {
    const leaving = articulations.filter((articulation) => !setters.has(articulation));
    const [first] = leaving;
    if (!first) return [];
    const verbs = [setters.size === 1 ? 'sets' : 'set', leaving.length === 1 ? 'leaves' : 'leave'] as const;
    return [
      diagnostic(
        'aspect-left-behind',
        first.place,
        `${namesOf([...setters])} ${verbs[0]} ${what}, but ${namesOf(leaving)} ${verbs[1]} it as it was`,
        'what is set goes on sounding there; let each say what it needs, or give the message an aspect of its own if it is independent',
      ),
    ];
  });
}

function lastingMessages({ switching }: ArticulationMap, { switch: messages }: Articulation) {
  const isMomentary = switching.notes === 'momentary';
  return messages.filter(
    (message) => namedAspectOf(message) === undefined && isLasting(message, isMomentary),
  );
}

function namesOf(articulations: readonly Articulation[]): string {
  const names = articulations.slice(0, 8).map(({ name }) => quoted(name));
  return `${names.join(', ')}${articulations.length > names.length ? ` and ${articulations.length - names.length} more` : ''}`;
}
