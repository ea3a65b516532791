import { codes } from '../../diagnostics/index.js';
import {
  bar,
  beat,
  channel,
  closed,
  type Fragment,
  listOf,
  orNull,
  pitch,
  ref,
  text,
  tick,
  track,
  whole,
  yes,
} from './fragments.js';
import { articulations, likeness, moving } from './libraries.js';
import { learnedSchema, measuredSchema, suggestedSchema } from './library-schemas.js';
import { taking } from './takes.js';

const found = closed(
  {
    code: { enum: Object.keys(codes), description: 'What is wrong; the list of codes explains each.' },
    severity: { enum: ['error', 'warning'] },
    message: text('What was found, in one sentence.'),
    hint: text('What would be right.'),
    file: text('The file, as it was given on the command line, or from there; - is standard input.'),
    line: whole('In a YAML file, counted from 1.'),
    column: whole('In a YAML file, counted from 1.'),
    offset: whole('In a binary file. Unit: bytes, from 0.'),
    track,
    trackName: text("The track's name."),
    bar,
    beat,
    tick,
  },
  'code',
  'severity',
  'message',
);

const note = closed(
  {
    tick,
    bar,
    beat,
    pitch,
    velocity: whole('The velocity that was played.'),
    heldMs: { type: 'number', description: 'How long it was held. Unit: ms.' },
    articulation: text('What it was given.'),
    rule: { type: ['integer', 'string'], description: "The rule that decided, from 0, or 'marked'." },
    insteadOf: whole('The rule that would have decided, but for steadiness.'),
    switchTick: orNull(whole('Where its switch was sent; null where none had to be.')),
    movedTo: whole('Where it was moved to. Unit: ticks.'),
    sentPitch: whole('The key that is sent, where it is another.'),
    sentVelocity: whole('The velocity that is sent, where it is another.'),
    players: closed(
      {
        playing: whole('How many players play it.'),
        of: whole('How many the part has.'),
      },
      'playing',
      'of',
    ),
    sentChannel: whole('The channel that it is sent on, where it is another.'),
  },
  ...['tick', 'bar', 'beat', 'pitch', 'velocity', 'heldMs', 'articulation', 'rule', 'switchTick'],
);

const verdict = closed(
  {
    articulation: text('What the note is given.'),
    rule: { type: ['integer', 'string'], description: "The rule, from 0, or 'marked'." },
    insteadOf: whole('The rule that would have decided, but for steadiness.'),
    mark: text('The mark that decided by itself.'),
    reason: text('Why, with the line of the map and what was measured.'),
  },
  'articulation',
  'rule',
  'reason',
);

const changed = closed(
  {
    likeness,
    number: whole('The note, counted from 1.'),
    tick,
    bar,
    beat,
    pitch,
    from: ref('verdict'),
    to: ref('verdict'),
  },
  ...['number', 'pitch', 'from', 'to'],
);

/** A part of a recording: what every command calls the same, and what each tells of it besides. */
const part = closed(
  {
    track,
    name: text("The track's name."),
    channel,
    input: text('The recording, where there may be several.'),
    notes: {
      anyOf: [listOf(ref('note'), 'What was decided, note by note.'), whole('How many notes it has.')],
    },
    changed: listOf(ref('changed'), 'The notes that get another articulation.'),
    ...Object.fromEntries(
      ['library', 'instrument', 'wrongNotes', 'bars', 'wrongFrom', 'cures'].map((name) => [
        name,
        { description: 'Of a proof.' },
      ]),
    ),
    ...Object.fromEntries(
      ['measures', 'mechanical'].map((name) => [name, { description: 'Of an inspection.' }]),
    ),
    ...Object.fromEntries(['falls', 'bounds'].map((name) => [name, { description: 'Of suggestions.' }])),
  },
  'track',
  'name',
  'channel',
);

const compared = {
  a: text('The map that is compared with, or a version of it.'),
  b: text('The map.'),
  notes: whole('How many notes there are.'),
  changes: whole('How many of them get another articulation.'),
  parts: {
    anyOf: [
      listOf(ref('part'), 'The parts, in the order of the file.'),
      whole('How many there are (sheet).'),
      {
        type: ['array', 'string'],
        items: { type: 'string' },
        description: 'The parts that were asked for (voice).',
      },
    ],
  },
  examples: listOf({ type: 'object' }, 'The examples of the maps that were compared.'),
  articulations: ref('articulations'),
};

const result = closed(
  {
    input: text('The recording.'),
    output: text('The file that was written.'),
    map: { type: ['string', 'array'], items: { type: 'string' }, description: 'The map, or maps.' },
    timing: { description: 'The timing options, the seed among them.' },
    parts: listOf(ref('part'), 'The parts, in the order of the file.'),
  },
  ...['input', 'output', 'map', 'parts'],
);

const looked = closed(
  {
    file: text('The map or cue.'),
    ok: yes('Whether it is in order.'),
    diagnostics: listOf(ref('diagnostic'), 'What is wrong with it.'),
  },
  ...['file', 'ok', 'diagnostics'],
);

const seen = closed(
  {
    map: text('The map.'),
    state: { enum: ['new', 'changed', 'mended', 'unknown'], description: 'What became of it.' },
    ...compared,
  },
  'map',
  'state',
);

const others: Readonly<Record<string, string>> = {
  harmony: 'inspect: the chords.',
  voicing: 'inspect: how chords are laid out.',
  register: 'inspect: where each part lies.',
  balance: 'inspect: what covers what.',
  key: 'inspect --brief: the main key.',
  remarks: 'inspect --brief: how much there is to remark.',
  violations: 'prove: what does not sound as meant.',
  timing: 'The timing options, the seed among them.',
  switches: 'sheet: how many switches were sent.',
  bars: 'sheet: how many bars it has.',
  systems: 'sheet: how many systems it has.',
  sound: 'sheet: how long its sound is, in seconds, and how large it is compressed, in bytes.',
  click: 'probe: the file of clicks.',
  seconds: 'How long it lasts. Unit: s.',
  slots: 'probe: how many sounds are asked for.',
  score: 'mark: the score.',
  found: 'mark: what of the score was found in the take.',
  written: 'mark: what was written; move: the files that were.',
  marks: 'mark: how many marks were written.',
  unmatched: 'mark: what was not found.',
  rhythm: 'set: the rhythm.',
  strokes: 'set: how many strokes it has.',
  tracks: 'set, voice: the tracks that were written.',
  bank: 'hear: the bank of sounds.',
  frames: 'hear: how long the sound is. Unit: frames.',
  peak: 'hear: its loudest sample; null for silence. Unit: dB of full scale.',
  gain: 'hear: by how much it was turned down: 0 or less. Unit: dB.',
  plain: 'hear: the articulations that sound plain.',
  substitutes: 'hear: what is heard in place of sounds that the bank has not.',
};

/** What is not of the common shape: the commands that measure and learn. */
const ofLibraries: Readonly<Record<string, Fragment>> = {
  'keyslip-learn/1': learnedSchema,
  'keyslip-measure/1': measuredSchema,
  'keyslip-suggest/1': suggestedSchema,
};

/** The shape of what `--json` and `--report` print, as JSON Schema 2020-12. A name means one thing in all commands. */
export function reportSchema(): Fragment {
  return {
    $schema: 'https://json-schema.org/draft/2020-12/schema',
    title: 'What keyslip prints with --json, and writes with --report',
    type: 'object',
    required: ['format'],
    properties: {
      format: { enum: ['keyslip-report/1', ...Object.keys(ofLibraries)] },
    },
    allOf: Object.entries(ofLibraries).map(([format, shape]) => ({
      if: { properties: { format: { const: format } } },
      // biome-ignore lint/suspicious/noThenProperty: the word of JSON Schema
      then: shape,
    })),
    if: { properties: { format: { const: 'keyslip-report/1' } } },
    // biome-ignore lint/suspicious/noThenProperty: the word of JSON Schema
    then: {
      anyOf: ['diagnostics', 'files', 'parts'].map((name) => ({ required: [name] })),
      properties: {
        format: { const: 'keyslip-report/1' },
        diagnostics: listOf(ref('diagnostic'), 'What is wrong, also where the command failed.'),
        files: listOf(ref('checked'), 'check: each map and cue.'),
        input: text('The recording, score, cue or compiled file that the command was given.'),
        output: text('The file that was written; - is standard output.'),
        results: listOf(ref('result'), 'compile, of several recordings: each of them.'),
        map: {
          type: ['string', 'array'],
          items: { type: 'string' },
          description: 'The map; of several, one for each part.',
        },
        since: text('compare: the revision that was asked for.'),
        base: orNull(text('compare: the commit that is compared with; null where there is none.')),
        maps: listOf(ref('seen'), 'compare: the maps that changed.'),
        proved: yes('prove: whether every note sounds as meant.'),
        compared: yes('prove: whether it was compared with the recording.'),
        ...compared,
        ...moving,
        ...taking,
        ...Object.fromEntries(Object.entries(others).map(([name, description]) => [name, { description }])),
      },
      additionalProperties: false,
    },
    $defs: { diagnostic: found, note, verdict, changed, part, result, articulations, checked: looked, seen },
  };
}
