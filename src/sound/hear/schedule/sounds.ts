import { standInOf } from '../stand-in/choose.js';
import { plainSound } from '../stand-in/plain.js';
import type { HearPart, PlainArticulation, StandIn } from '../types.js';

/** One voice of the synthesiser: what sounds the same and follows the same controllers. */
export interface Sound {
  /** The part's index. */
  readonly part: number;
  /** General MIDI program on the wire. */
  readonly program: number;
  readonly isKit: boolean;
  /** Controller 73 for all of its notes: 64 leaves the attack as it is. */
  readonly attack: number;
  /** Whether its loudness follows the dynamics controller instead of velocities. */
  readonly followsCurve: boolean;
}

/** What a note is played with. */
export interface Voicing {
  /** The index of its sound. */
  readonly sound: number;
  readonly followsCurve: boolean;
  readonly standIn: StandIn;
}

/** The sounds that parts need, found as notes ask for them, and the articulations that nothing stands in for. */
export interface Sounds {
  /** Is asked once for each note that is heard. */
  voicingOf(part: number, articulation: string | undefined): Voicing;
  readonly all: readonly Sound[];
  plain(): readonly PlainArticulation[];
}

/** A voicing, and how many notes have had it. */
interface Known {
  readonly voicing: Voicing;
  /** Named where nothing stands in for it. */
  readonly plain?: { readonly part: string; readonly articulation: string };
  notes: number;
}

/** Attacks are as the bank has them. */
const plainAttack = 64;

/** @param isAsPlayed every note has its part's plain sound */
export function soundsOf(parts: readonly HearPart[], isAsPlayed: boolean): Sounds {
  const all: Sound[] = [];
  const indices = new Map<string, number>();
  const known = new Map<string, Known>();

  function indexOf(sound: Sound): number {
    const key = Object.values(sound).join(' ');
    const index = indices.get(key) ?? all.length;
    if (index === all.length) all.push(sound);
    indices.set(key, index);
    return index;
  }

  function learn(number: number, name: string): Known {
    const part = parts[number];
    if (!part) throw new RangeError(`there is no part ${number}`);
    const articulation = isAsPlayed ? undefined : part.articulations.find((one) => one.name === name);
    const chosen = articulation && standInOf(articulation, part.family);
    const followsCurve = part.dynamicsController !== undefined && articulation?.loudness === 'controller';
    const sound = indexOf(soundFor(part, number, chosen ?? {}, followsCurve));
    const voicing = { sound, followsCurve, standIn: chosen ?? {} };
    if (!articulation || chosen) return { voicing, notes: 0 };
    return { voicing, plain: { part: part.name, articulation: name }, notes: 0 };
  }

  return {
    all,
    voicingOf(number, name = '') {
      const key = `${number} ${name}`;
      const one = known.get(key) ?? learn(number, name);
      known.set(key, one);
      one.notes += 1;
      return one.voicing;
    },
    plain: () => [...known.values()].flatMap(({ plain, notes }) => (plain ? [{ ...plain, notes }] : [])),
  };
}

function soundFor(part: HearPart, number: number, standIn: StandIn, followsCurve: boolean): Sound {
  const base = plainSound(part);
  const isKit = standIn.isKit ?? (standIn.program === undefined && base.isKit);
  return {
    part: number,
    program: standIn.program ?? (isKit === base.isKit ? base.program : 0),
    isKit,
    attack: standIn.attack ?? plainAttack,
    followsCurve,
  };
}
