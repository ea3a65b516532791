import { spellPitch } from '../../diagnostics/index.js';
import { silencing } from '../../midi/index.js';
import { refersTo } from '../../yaml/index.js';
import { field, pitch } from '../source/index.js';
import type { SwitchKind } from './kind.js';

export interface NoteMessage {
  readonly kind: 'note';
  readonly key: number;
  readonly aspect?: string;
}

/** A switch key, struck or held. */
export const note: SwitchKind<NoteMessage> = {
  kind: 'note',
  written: {
    is: 'note',
    keys: {
      note: refersTo('pitch', { description: 'The switch key. Keys lie outside the playable range.' }),
    },
    needs: {},
  },
  read: (source, tree, aspect) => {
    const key = pitch(source, field(tree, 'note'));
    return key === undefined ? undefined : { kind: 'note', key, ...aspect };
  },
  taken: ({ key }) => ({ key }),
  aspect: () => 'note',
  formatAspect: () => 'the switch key',
  subject: ({ key }) => `switch key ${key}`,
  identity: ({ key }) => `note ${key}`,
  covers: (one, other) => one.key === other.key,
  setsMore: () => false,
  isLasting: (isMomentary) => !isMomentary,
  events: () => [],
  // Keys that are held are let go; a latched one stays.
  writers: (_, isMomentary) =>
    isMomentary ? [...silencing].map((number) => `controller ${number}` as const) : [],
  formatShort: ({ key }, middleC) => spellPitch(key, middleC),
  format: ({ key }, middleC) => `note ${spellPitch(key, middleC)} (${key})`,
};
