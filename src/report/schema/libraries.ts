import { closed, type Fragment, listOf, orNull, pitch, text, whole } from './fragments.js';

export const likeness: Fragment = {
  enum: ['same', 'variation', 'plain', 'name', 'lost'],
  description:
    'How near a sound of another library comes: same meaning, another variation, plain sound of its class, same name where what it means is not known, or nothing of these.',
};

export const otherwise = (fragment: Fragment, description: string): Fragment => ({
  ...closed({ from: fragment, to: fragment }, 'from', 'to'),
  description,
});
const names = { from: text('The articulation.'), to: text('What it becomes.') };
const ends = closed({ low: pitch, high: pitch }, 'low', 'high');
const times = listOf(text('As a map spells it: 40ms, 1/16.'), 'One, or a step for each kind of notes.');
const twoValues: Fragment = { type: 'array', items: { type: 'integer' }, minItems: 2, maxItems: 2 };

export const articulations = closed(
  {
    onlyA: listOf(text('By its name.'), 'What the second map has nothing for.'),
    onlyB: listOf(text('By its name.'), 'What stands for nothing of the first map.'),
    becomes: listOf(
      closed({ ...names, to: orNull(names.to), likeness }, 'from', 'to', 'likeness'),
      'What each articulation becomes, by what it means; only where the maps are of two libraries.',
    ),
    reswitched: listOf({ type: 'object' }, 'What is switched otherwise in the same library.'),
    transpose: otherwise(whole('Semitones over what is written.'), 'What is sent over what is written.'),
    pedal: otherwise({ enum: ['lengthens', 'ignored'] }, 'What the sustain pedal does.'),
    range: otherwise(ends, 'The playable range.'),
    controller: otherwise(orNull(whole('0–127.')), 'The controller of the dynamics; null: none.'),
    levels: listOf(
      closed(
        { mark: text('As pp.'), from: orNull(whole('0–127.')), to: orNull(whole('0–127.')) },
        ...['mark', 'from', 'to'],
      ),
      'Marks whose controller values differ.',
    ),
    loudness: listOf(
      closed(
        {
          ...names,
          loudness: otherwise({ enum: ['velocity', 'controller'] }, 'What makes it loud.'),
          velocity: otherwise(
            { anyOf: [twoValues, { type: 'null' }] },
            'Into what played velocities are laid; null: they stay.',
          ),
        },
        ...['from', 'to'],
      ),
      'What is loud by something else.',
    ),
    lead: otherwise(text('As a map spells it.'), 'How long before a note its switch is sent.'),
    delays: listOf(
      closed(
        {
          ...names,
          speaksAfter: otherwise(times, 'From note-on until it is heard.'),
          joins: otherwise(times, 'How far notes are held over the next onset; none where they are not.'),
        },
        ...['from', 'to'],
      ),
      'What is heard later or earlier, or joins notes otherwise.',
    ),
  },
  ...['onlyA', 'onlyB', 'reswitched'],
);

export const barRanges = listOf(
  closed({ from: whole('The first bar, from 1.'), to: whole('The last.') }, 'from', 'to'),
  'The bars in which they begin; none where the music has no bars.',
);

/** What `move` tells besides. */
export const moving = {
  part: text('move: the part of the cue.'),
  layer: text('move: the layer of the part, where one is moved.'),
  moved: listOf(
    closed(
      {
        ...names,
        likeness,
        nearer: text('What would come nearer than what the rules of the new map give.'),
        notes: whole('How many notes.'),
        bars: barRanges,
      },
      ...['from', 'to', 'likeness', 'notes', 'bars'],
    ),
    'move: what the notes of the part become.',
  ),
  outside: {
    ...closed(
      { notes: whole('How many notes.'), bars: barRanges, low: pitch, high: pitch },
      ...['notes', 'bars', 'low', 'high'],
    ),
    description: 'move: the notes that lie in the range of the old map, and not in that of the new one.',
  },
};
