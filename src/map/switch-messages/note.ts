import { spellPitch } from '../../diagnostics/index.js';
import { silencing } from '../../midi/index.js';
import { refersTo } from '../../yaml/index.js';
import { field, pitch } from '../source/index.js';
import type { SwitchKind } from './kind.js';

export interface NoteMessage {
  readonly kind: 'note';
  readonly key: number;
  readonly aspect?: string;
  /** Whether the key works only while it is held; absent where it is as `switching.notes` says. */
  readonly held?: boolean;
}

/** A switch key, struck or held. */
export const note: SwitchKind<NoteMessage> = {
  kind: 'note',
  written: {
    is: 'note',
    keys: {
      note: refersTo('pitch', { description: 'The switch key. Keys lie outside the playable range.' }),
      held: {
        description:
          'true: this key works only while it is held; false: it latches. Left out, it is as switching.notes says.',
        type: 'boolean',
      },
    },
    needs: { held: ['note'] },
  },
  read: (source, tree, aspect) => {
    const key = pitch(source, field(tree, 'note'));
    const held = field(tree, 'held')?.data;
    if (key === undefined) return undefined;
    return { kind: 'note', key, ...aspect, ...(typeof held === 'boolean' ? { held } : {}) };
  },
  taken: ({ key }) => ({ key }),
  aspect: () => 'note',
  formatAspect: () => 'the switch key',
  subject: ({ key }) => `switch key ${key}`,
  identity: ({ key }) => `note ${key}`,
  covers: (one, other) => one.key === other.key,
  setsMore: () => false,
  isLasting: ({ held }, isMomentary) => !(held ?? isMomentary),
  sends: () => [],
  // Keys that are held are let go, by a reset of the device too; a latched one stays.
  writers: ({ held }, isMomentary) =>
    (held ?? isMomentary)
      ? [...[...silencing].map((number) => `controller ${number}` as const), 'system on']
      : [],
  formatShort: ({ key }, middleC) => spellPitch(key, middleC),
  format: ({ key }, middleC) => `note ${spellPitch(key, middleC)} (${key})`,
};
