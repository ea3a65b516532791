import { word } from '../source/index.js';
import type { MeasuredKind } from './kind.js';

export interface PedalCondition {
  readonly key: 'pedal';
  readonly is: 'down' | 'up';
}

const whole = { from: 0, end: 2 };

/** `pedal`: the sustain pedal at the onset. */
export const pedal: MeasuredKind<PedalCondition> = {
  key: 'pedal',
  schema: {
    description:
      'The sustain pedal at the onset: down where controller 64 was last set to 64 or more on its channel, up otherwise.',
    enum: ['down', 'up'],
    examples: ['down'],
  },
  read: (source, tree) => ({ key: 'pedal', is: word(source, tree, ['down', 'up']) }),
  bind:
    ({ is }) =>
    ({ pedalDown }) =>
      pedalDown === (is === 'down'),
  format: (_, { pedalDown }) => `pedal ${pedalDown ? 'down' : 'up'}`,
  // As a measure, up is 0 and down is 1.
  interval: ({ is }) => ({
    measure: 'pedal',
    from: is === 'down' ? 1 : 0,
    end: is === 'down' ? 2 : 1,
    whole,
  }),
  implies: () => false,
  durations: () => [],
  bounds: () => [],
};
