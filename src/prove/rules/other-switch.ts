import type { ArticulationMap } from '../../map/index.js';
import { finder } from '../../midi/index.js';
import { effectOf } from '../effects.js';
import type { Stage } from '../part.js';
import { type Action, switchesBetweenNotes } from '../switch-actions.js';
import { keyName } from '../violations.js';
import type { HearingRule } from './rule.js';

/**
 * other-switch: what stands between two notes of a channel must be what the later one's articulation sends: each message
 * at most once, in the map's order, and a program that has a bank with its bank. Less may be sent, since what is in
 * force need not be sent again.
 */
export const otherSwitches: HearingRule = ({ actions, unheard, stage }) => {
  const sendable = new Map(
    [...stage.map.articulations.keys()].map((name) => [name, sequenceOf(name, stage.map)]),
  );
  const complain = (action: Action, what: string) => {
    const { tick, channel, key } = action;
    return stage.complain('other-switch', { tick, channel, pitch: key }, `${nameOf(action, stage)} ${what}`);
  };
  const { before, behindAll } = switchesBetweenNotes(actions);
  const lost = finder(unheard.map(({ tick }) => tick).sort((a, b) => a - b));
  const misplaced = [...before].flatMap(([{ tick, meant = '' }, sent]) => {
    const sequence = sendable.get(meant);
    // A note that is lost leaves its switches behind; they are no fault of their own.
    const isForLost = lost(tick) !== lost((sent[0]?.tick ?? tick) - 1);
    return sequence && !isForLost
      ? misplacedIn(sent, sequence, meant).map(([action, what]) => complain(action, what))
      : [];
  });
  return [
    ...misplaced,
    ...behindAll
      .filter(({ tick }) => lost(Number.POSITIVE_INFINITY) === lost(tick - 1))
      .map((action) => complain(action, 'is for no note')),
  ];
};

/** What an articulation sends, in order; for a program, the banks that go before it. */
type Sequence = readonly { readonly what: string; readonly banks: readonly string[] }[];

function sequenceOf(name: string, { articulations, switching }: ArticulationMap): Sequence {
  const isMomentary = switching.notes === 'momentary';
  return (articulations.get(name)?.switch ?? []).flatMap((message) => {
    const { sent } = effectOf(message, isMomentary);
    return sent.map((what, index) => ({
      what,
      banks: index === sent.length - 1 ? sent.slice(0, index) : [],
    }));
  });
}

/** Looks backwards from the note: what stands nearest to it is most likely what was sent for it. */
function misplacedIn(
  sent: readonly Action[],
  sequence: Sequence,
  meant: string,
): readonly (readonly [Action, string])[] {
  const found: [Action, string][] = [];
  const accepted = new Set<string>();
  let end = sequence.length;
  for (const action of [...sent].reverse()) {
    const at = sequence.findLastIndex(({ what }, index) => index < end && what === action.what);
    if (at >= 0) {
      end = at;
      accepted.add(action.what);
    } else if (accepted.has(action.what)) found.push([action, 'is sent twice']);
    else if (sequence.some(({ what }) => what === action.what))
      found.push([action, 'is sent out of its order']);
    else found.push([action, `is no switch of ${meant}, which is meant for the next note`]);
  }
  const banksOf = new Map(sequence.map(({ what, banks }) => [what, banks]));
  for (const action of sent)
    if (accepted.has(action.what) && !banksOf.get(action.what)?.every((bank) => accepted.has(bank)))
      found.push([action, 'is sent without its bank']);
  return found.sort(([a], [b]) => a.tick - b.tick);
}

function nameOf({ key, what }: Action, { map }: Stage): string {
  return key === undefined ? `the switch ${what}` : `the switch key ${keyName(key, map.middleC)}`;
}
