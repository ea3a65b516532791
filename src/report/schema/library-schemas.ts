import { closed, type Fragment, listOf, number, orNull, ref, text, whole, yes } from './fragments.js';

/** The shapes of what `measure`, `learn` and `suggest` print with `--json`. Where a command fails, little is there. */

const share = (description: string): Fragment => ({ type: 'number', minimum: 0, maximum: 1, description });
const ms = (description: string): Fragment => number(`${description} Unit: ms.`);
const decibels = (description: string): Fragment => number(`${description} Unit: LUFS.`);
const diagnostics = listOf(ref('diagnostic'), 'What is wrong, also where the command failed.');
const pitch = whole('A MIDI note, 0–127.');

/** With a format of its own, and always with diagnostics. */
function documentOf(format: string, properties: Readonly<Record<string, Fragment>>): Fragment {
  return closed({ format: { const: format }, ...properties, diagnostics }, 'format', 'diagnostics');
}

const step = closed(
  {
    when: { type: ['object', 'null'], description: 'Which notes it is for; null for all others.' },
    isMs: ms('How late they speak.'),
    spreadMs: ms('Between the quartiles.'),
    used: whole('Of how many notes.'),
  },
  ...['when', 'isMs', 'spreadMs', 'used'],
);

const articulation = closed(
  {
    speaksAfterMs: orNull(
      ms('From note-on until it is heard to begin; null where that could not be measured.'),
    ),
    uncertaintyMs: orNull(ms('What the definition of an onset weighs.')),
    crossingsMs: {
      anyOf: [
        closed({ at15: ms('15 dB below its loudest.'), at6: ms('6 dB below it.') }, 'at15', 'at6'),
        { type: 'null' },
      ],
      description: 'When it has risen so far.',
    },
    spreadMs: orNull(ms('Between the quartiles of all its notes.')),
    used: whole('How many notes were used.'),
    rejected: whole('How many were not.'),
    steps: listOf(step, 'Where notes differ by more than they scatter.'),
    length: closed(
      {
        ms: ms('How long its notes last.'),
        followsKey: yes('Whether they last as long as the key is held.'),
        rings: yes('Whether a room or a release is heard.'),
      },
      ...['ms', 'followsKey', 'rings'],
    ),
    silentKeys: listOf(pitch, 'Keys that gave no sound.'),
  },
  ...['speaksAfterMs', 'uncertaintyMs', 'crossingsMs', 'spreadMs', 'used', 'rejected', 'silentKeys'],
);

const bounce = closed(
  {
    sampleRate: whole('Unit: Hz.'),
    bits: whole('Bits of a sample.'),
    encoding: { enum: ['integer', 'float'] },
    startSeconds: number('When bar 1 begins. Unit: s.'),
    driftPpm: number('How far the bounce runs slow. Unit: parts in a million.'),
    clicks: { enum: ['both', 'start', 'none'], description: 'The clicks that were found.' },
    noise: orNull(decibels('What is there where nothing is played; null for silence.')),
    plan: closed({ quick: yes('--quick'), room: yes('--room') }, 'quick', 'room'),
  },
  ...['sampleRate', 'bits', 'encoding', 'startSeconds', 'driftPpm', 'clicks', 'noise', 'plan'],
);

export const measuredSchema = documentOf('keyslip-measure/1', {
  bounce,
  articulations: {
    type: 'object',
    additionalProperties: articulation,
    description: 'What was measured of each articulation.',
  },
  levels: listOf(
    closed(
      { controller: whole('Its number.'), value: whole('0–127.'), dB: decibels('How loud it is.') },
      ...['controller', 'value', 'dB'],
    ),
    'How loud values of the controller are.',
  ),
  velocities: listOf(
    closed(
      { articulation: text('Of which.'), velocity: whole('1–127.'), dB: decibels('How loud it is.') },
      ...['articulation', 'velocity', 'dB'],
    ),
    'How loud velocities are.',
  ),
  marks: listOf(
    closed(
      {
        mark: text('pp to ff.'),
        value: whole('The value of the controller that it comes to.'),
        dB: decibels('What the value gives.'),
        isReached: yes('Whether the library goes so far.'),
      },
      ...['mark', 'value', 'dB', 'isReached'],
    ),
    'Marks of loudness.',
  ),
  referenceLevel: orNull(decibels('Loudness at mf; null where nothing was loud enough.')),
  seat: orNull(number('−1 left to 1 right.')),
  width: orNull(number('0 a point to 1 all of the stage.')),
  pan: listOf(
    closed({ value: whole('Of controller 10.'), dB: number('Right less left. Unit: dB.') }, 'value', 'dB'),
    'What controller 10 does.',
  ),
  alike: listOf(
    closed(
      {
        articulations: listOf(text('An articulation.'), 'Two of them.'),
        dB: number('How far they are apart. Unit: dB.'),
      },
      ...['articulations', 'dB'],
    ),
    'Articulations that sound alike.',
  ),
  doubts: listOf(
    closed({ about: text('What is meant.'), text: text('Why.') }, 'about', 'text'),
    'What is not to be trusted.',
  ),
});

export const learnedSchema = documentOf('keyslip-learn/1', {
  verdict: {
    enum: ['ladder', 'by-section', 'nothing-fits', 'one-articulation', 'too-few'],
    description: 'What came of it.',
  },
  notes: whole('How many notes have a known articulation.'),
  guess: yes('Whether there are so few that all is a guess.'),
  accuracy: closed(
    {
      ladder: share('The rules.'),
      balanced: share('The rules, each articulation counting the same.'),
      commonest: share('The commonest articulation alone.'),
      singleBound: share('The best single bound.'),
    },
    ...['ladder', 'balanced', 'commonest', 'singleBound'],
  ),
  heldOut: {
    anyOf: [
      closed(
        {
          by: { enum: ['piece', 'phrase'], description: 'What was held out together.' },
          accuracy: share('The rules.'),
          commonest: share('The commonest articulation alone.'),
          singleBound: share('The best single bound.'),
        },
        ...['by', 'accuracy', 'commonest', 'singleBound'],
      ),
      { type: 'null' },
    ],
    description: 'The same, of notes that were not learned from.',
  },
  steadiness: share('Of the rules.'),
  decidedAlike: closed(
    { right: whole('Notes that the written map gives what sounded.'), of: whole('All of them.') },
    ...['right', 'of'],
  ),
  rules: listOf(
    closed(
      {
        when: text('Its conditions, in words.'),
        use: text('The articulation.'),
        decides: whole('How many notes.'),
        wrong: whole('How many of them sounded otherwise.'),
      },
      ...['when', 'use', 'decides', 'wrong'],
    ),
    'The rules that were found.',
  ),
  exceptions: listOf(
    closed(
      {
        piece: text('The recording, and its track where it has several.'),
        bar: whole('Counted from 1.'),
        beat: number('Counted from 1.'),
        tick: whole('Unit: ticks of the file.'),
        sounded: text('The articulation that sounded.'),
        says: text('What the rules give.'),
        looks: { enum: ['forgotten', 'late', 'single', 'row'], description: 'What it looks like.' },
      },
      ...['piece', 'bar', 'beat', 'tick', 'sounded', 'says', 'looks'],
    ),
    'Notes that sounded otherwise than the rules say.',
  ),
  notLearned: listOf(
    closed(
      { articulation: text('Its name.'), notes: whole('How many notes it has.') },
      ...['articulation', 'notes'],
    ),
    'Articulations with too few notes.',
  ),
  shift: { enum: [-1, 0, 1], description: '1 where every switch came a note late, −1 early.' },
  forgetful: yes('Whether switches seem to have been forgotten.'),
  output: text('The map that was written; - is standard output.'),
});

const bound = closed(
  {
    value: number('In percent or ms.'),
    text: text('As a map spells it.'),
    tier: whole('0 for the roundest to 3.'),
  },
  ...['value', 'text', 'tier'],
);
const measure: Fragment = { enum: ['held-share', 'held', 'pace'], description: 'What is measured.' };

export const suggestedSchema = documentOf('keyslip-suggest/1', {
  input: text('The recording.'),
  parts: listOf(
    closed(
      {
        track: whole('The track, counted from 1.'),
        name: text("The track's name."),
        channel: whole('The MIDI channel, 1–16.'),
        falls: listOf(
          closed(
            {
              measure,
              notes: whole('How many notes.'),
              bars: listOf(
                closed(
                  {
                    from: number('Inclusive.'),
                    to: orNull(number('Exclusive; null for the last, which has no end.')),
                    notes: whole('How many notes.'),
                  },
                  ...['from', 'to', 'notes'],
                ),
                'A histogram.',
              ),
              breaks: listOf(
                closed(
                  {
                    bound,
                    lowest: number('Its lowest point.'),
                    depth: number('0 is empty, 1 no valley.'),
                  },
                  ...['bound', 'lowest', 'depth'],
                ),
                'Its valleys.',
              ),
            },
            ...['measure', 'notes', 'bars', 'breaks'],
          ),
          'How the measures of the take fall.',
        ),
        bounds: listOf(
          closed(
            {
              bound: closed(
                { measure, value: number('In percent or ms.'), text: text('As the map spells it.') },
                ...['measure', 'value', 'text'],
              ),
              below: whole('Notes under it.'),
              near: whole('Notes within 10 % of it.'),
              notes: whole('All notes.'),
              height: number('1 is the top of the heap that it stands in.'),
              cutsHeap: yes('Whether it cuts through a heap.'),
              alternatives: listOf(
                closed(
                  {
                    bound,
                    near: whole('Notes within 10 % of it.'),
                    crossing: whole('Notes that would lie on its other side.'),
                    changed: whole('Notes whose articulation changes.'),
                    switches: number('Changes of articulation in 100 notes.'),
                  },
                  ...['bound', 'near', 'crossing'],
                ),
                'What other bounds would give.',
              ),
              switches: number('Changes of articulation in 100 notes.'),
            },
            ...['bound', 'below', 'near', 'notes', 'height', 'cutsHeap', 'alternatives'],
          ),
          "The map's bounds.",
        ),
      },
      ...['track', 'name', 'channel', 'falls', 'bounds'],
    ),
    'The parts that were looked at.',
  ),
});
