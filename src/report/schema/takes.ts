import {
  bar,
  beat,
  channel,
  closed,
  listOf,
  number,
  pitch,
  ref,
  text,
  tick,
  track,
  whole,
} from './fragments.js';
import { barRanges, likeness, otherwise } from './libraries.js';

const place = { tick, bar, beat, pitch };
const places = ['tick', 'bar', 'beat', 'pitch'];

const lone = closed({ take: { enum: ['first', 'second'] }, ...place }, 'take', ...places);

const altered = closed(
  {
    ...place,
    moved: number('How much later it stands. Unit: ticks of the first take.'),
    held: otherwise(number('Unit: ms.'), 'How long it is held.'),
    velocity: otherwise(whole('1–127.'), 'How hard it was struck.'),
    decided: {
      ...closed({ from: ref('verdict'), to: ref('verdict'), likeness }, 'from', 'to'),
      description: 'What it was given, and is given now.',
    },
    sent: listOf(
      { enum: ['time', 'length', 'velocity', 'key', 'channel', 'switch'] },
      'What of its way to the library is otherwise, though it is played and decided as before.',
    ),
  },
  ...places,
);

/** What `compare` tells of two takes. */
export const taking = {
  takes: listOf(
    closed(
      {
        name: text('The part in its cue, else its track.'),
        track,
        channel,
        only: { enum: ['first', 'second'], description: 'Where only one of the takes has it.' },
        maps: otherwise(text('The file.'), 'The maps, where they are two.'),
        same: whole('How many notes are in both takes, and in nothing otherwise.'),
        lone: listOf(lone, 'Notes that one of the takes has.'),
        altered: listOf(altered, 'Notes that both have, with what of them is otherwise.'),
      },
      ...['name', 'track', 'channel', 'same', 'lone', 'altered'],
    ),
    'compare: the parts of two takes.',
  ),
  shift: {
    ...closed(
      {
        after: whole('The last bar before them, from 1; 0 for those at the beginning.'),
        bars: whole('How many; below 0 where they were taken out.'),
      },
      ...['after', 'bars'],
    ),
    description: 'compare: bars that were put into the second take, or taken out.',
  },
  events: listOf(
    closed(
      {
        track,
        name: text("The track's name."),
        kind: text('As controller 1, pitch bend, tempo; notes that no map plays are notes.'),
        bars: barRanges,
        removed: whole('How many only the first take has.'),
        added: whole('How many only the second has.'),
      },
      ...['track', 'name', 'kind', 'bars', 'removed', 'added'],
    ),
    'compare: all other events in which two takes differ.',
  ),
};
