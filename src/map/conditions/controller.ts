import { firstChannelMode } from '../../midi/index.js';
import { refersTo } from '../../yaml/index.js';
import { field, number } from '../source/index.js';
import type { MeasuredKind } from './kind.js';
import {
  formatNumberRange,
  type NumberRange,
  numberFits,
  readNumberRange,
  wholeNumbers,
} from './number-range.js';

export interface ControllerCondition {
  readonly key: 'controller';
  readonly number: number;
  readonly range: NumberRange;
}

const values = wholeNumbers(0, 127);

/** `controller`: the value in force at the onset. */
export const controller: MeasuredKind<ControllerCondition> = {
  key: 'controller',
  schema: {
    description:
      "The value of a controller that is in force at the onset on the part's channel, both bounds inclusive. A note before which it was never set fits none.",
    examples: [{ number: 1, from: 64 }],
    type: 'object',
    additionalProperties: false,
    required: ['number'],
    minProperties: 2,
    properties: {
      number: {
        description: "The controller's number, 0 to 119.",
        type: 'integer',
        minimum: 0,
        maximum: firstChannelMode - 1,
      },
      from: refersTo('midi-value', { description: 'The least that fits (inclusive).' }),
      to: refersTo('midi-value', { description: 'The most that fits (inclusive).' }),
    },
  },
  read: (source, tree) => ({
    key: 'controller',
    number: number(source, field(tree, 'number')) ?? 0,
    range: readNumberRange(source, tree, values),
  }),
  bind:
    ({ number: of, range }) =>
    ({ controllers }) => {
      const value = controllers.get(of);
      return value !== undefined && numberFits(range, value);
    },
  format: ({ number: of, range }, { controllers }) =>
    `controller ${of} at ${controllers.get(of) ?? 'no value'} (${formatNumberRange(range)})`,
  interval: ({ number: of, range: { from = 0, to = 127 } }) => ({
    measure: `controller ${of}`,
    from,
    end: to + 1,
  }),
  implies: () => false,
  durations: () => [],
  bounds: () => [],
};
