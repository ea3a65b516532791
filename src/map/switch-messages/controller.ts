import { controllerMessage, firstChannelMode, resetControllers } from '../../midi/index.js';
import { refersTo } from '../../yaml/index.js';
import { field, number } from '../source/index.js';
import type { SwitchKind } from './kind.js';

export interface ControllerMessage {
  readonly kind: 'controller';
  readonly controller: number;
  readonly value: number;
  readonly aspect?: string;
}

/** A controller at a value. */
export const controller: SwitchKind<ControllerMessage> = {
  kind: 'controller',
  written: {
    is: 'controller with value',
    keys: {
      controller: {
        description: `The controller's number, 0 to ${firstChannelMode - 1} (120 to 127 are channel mode messages).`,
        type: 'integer',
        minimum: 0,
        maximum: firstChannelMode - 1,
      },
      value: refersTo('midi-value', { description: "The controller's value. Needed with controller." }),
    },
    needs: { controller: ['value'], value: ['controller'] },
  },
  read: (source, tree, aspect) => {
    const [of, value] = [number(source, field(tree, 'controller')), number(source, field(tree, 'value'))];
    if (of === undefined || value === undefined) return undefined;
    return { kind: 'controller', controller: of, value, ...aspect };
  },
  taken: (message) => ({ controller: message.controller }),
  aspect: (message) => `controller ${message.controller}`,
  formatAspect: (message) => `the controller ${message.controller}`,
  subject: (message) => `controller ${message.controller}`,
  identity: (message) => `controller ${message.controller} ${message.value}`,
  covers: (one, other) => one.controller === other.controller && one.value === other.value,
  setsMore: () => false,
  isLasting: () => true,
  sends: (message, channel) => [controllerMessage(channel, message.controller, message.value)],
  writers: (message) => [`controller ${message.controller}`, `controller ${resetControllers}`, 'system on'],
  formatShort: (message) => `CC ${message.controller} = ${message.value}`,
  format: (message) => `controller ${message.controller} at ${message.value}`,
};
