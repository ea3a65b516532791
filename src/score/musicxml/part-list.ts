import { child, childrenOf, numberAt, textAt, type XmlElement } from '../xml/element.js';

/** What the part list says of a part. */
export interface PartHead {
  readonly id: string;
  readonly name: string;
  /** 0–15. */
  readonly channel: number | null;
  /** MIDI note of each instrument of percussion, by the instrument's id. */
  readonly keys: ReadonlyMap<string, number>;
  /** The instrument that notes without one of their own have. */
  readonly firstInstrument: string | undefined;
}

/** General MIDI 1: percussion is on channel 10. */
export const percussionChannel = 9;

export function readPartList(root: XmlElement): ReadonlyMap<string, PartHead> {
  const heads = childrenOf(child(root, 'part-list'), 'score-part').map(readHead);
  return new Map(heads.map((head) => [head.id, head]));
}

function readHead(part: XmlElement): PartHead {
  const instruments = childrenOf(part, 'score-instrument');
  const sounds = childrenOf(part, 'midi-instrument');
  const keys = sounds.flatMap((one): [string, number][] => {
    // counted from 1 (MusicXML 4.0, midi-unpitched)
    const key = numberAt(one, 'midi-unpitched');
    const isKey = key !== undefined && Number.isInteger(key) && key >= 1 && key <= 128;
    return isKey ? [[one.attributes.get('id') ?? '', key - 1]] : [];
  });
  const channel = numberAt(sounds[0], 'midi-channel');
  const isChannel = channel !== undefined && Number.isInteger(channel) && channel >= 1 && channel <= 16;
  return {
    id: part.attributes.get('id') ?? '',
    name: textAt(part, 'part-name') ?? textAt(instruments[0], 'instrument-name') ?? '',
    channel: isChannel ? channel - 1 : null,
    keys: new Map(keys),
    firstInstrument: instruments[0]?.attributes.get('id'),
  };
}
