import { channel } from './channel.js';
import { controller } from './controller.js';
import { note } from './note.js';
import { program } from './program.js';

/** Every kind of switch message, in the order of the schema. */
export const switchKinds = [note, controller, program, channel] as const;
