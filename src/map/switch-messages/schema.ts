import { type Fragment, refersTo } from '../../yaml/index.js';
import { switchKinds } from './list.js';

/** The kinds of message as a list in words: `note, controller with value, program and channel`. */
export function formatKinds(isFull: boolean): string {
  const kinds = switchKinds.map(({ written: { is, mayHave } }) =>
    isFull && mayHave !== undefined ? `${is} (${mayHave})` : is,
  );
  return `${kinds.slice(0, -1).join(', ')} and ${kinds.at(-1)}`;
}

/** The fragment of one message. */
export function switchMessageSchema(): Fragment {
  const kinds = switchKinds.map(({ written }) => written);
  return {
    description: `One message that selects a recording: exactly one of ${formatKinds(true)}.`,
    type: 'object',
    additionalProperties: false,
    minProperties: 1,
    maxProperties: 4,
    properties: {
      ...Object.assign({}, ...kinds.map(({ keys }) => keys)),
      aspect: refersTo('name', {
        description:
          'Gives the message an aspect of the sound of its own, switched independently of the others: a mute, say.',
      }),
    },
    dependentRequired: Object.assign({}, ...kinds.map(({ needs }) => needs)),
    oneOf: kinds.map(({ keys }) => ({ required: Object.keys(keys).slice(0, 1) })),
  };
}
