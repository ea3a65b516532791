/** Every diagnostic code, with what it means. The README's table is checked against this list. */
export const codes = {
  // MIDI files
  'not-midi': 'The file does not begin with a MIDI header chunk.',
  'midi-header': 'The MIDI header is damaged or names an unknown format or division.',
  'midi-truncated': 'The file ends in the middle of a chunk or an event.',
  'midi-event': 'A track holds bytes that are no MIDI event.',
  'no-tracks': 'The file has no tracks.',
  'track-count': 'The header names another number of tracks than the file has.',
  'midi-tempo': 'A tempo or time signature that means nothing was passed over.',
  'midi-time': 'An event would stand further behind the one before it than a file can say, or ahead of it.',
  'midi-too-large': 'The MIDI file is larger than the limit.',
  // YAML
  'yaml-syntax': 'The file is not well-formed YAML.',
  'yaml-duplicate-key': 'A key stands twice in one mapping.',
  'yaml-alias': 'Aliases that unfold without end.',
  'map-too-large': 'The map or cue is larger than the limit.',
  'map-empty': 'The file has no map or cue in it.',
  // the schema
  'unknown-key': 'A key that the format does not have.',
  'missing-key': 'A key that the format needs is not there.',
  'wrong-type': 'A value of another kind than the format asks for.',
  'unknown-value': 'A value that is not one of those allowed.',
  'out-of-range': 'A number outside what is allowed.',
  'bad-duration': 'A duration that is neither a time (25ms, 2s) nor a fraction of a whole note (1/16).',
  'bad-pitch': 'A pitch that is no note name and no MIDI note.',
  'bad-name': 'A name with characters that names may not have.',
  'bad-percentage': 'A share that is not written as 15%.',
  'bad-switch': 'A switch message that is none of note, controller, program or channel, or several at once.',
  // a map's meaning
  'unknown-articulation': 'A name that is no articulation of the map.',
  'unknown-mark': 'A mark that is neither a notation element, a playing word nor an articulation of the map.',
  'same-switch': 'Two articulations have the same switch.',
  'switch-in-range': 'A switch note lies inside the playable range.',
  'range-reversed': 'A range whose lower end lies above its upper end.',
  'dead-rule': 'A rule that can never fire.',
  'no-last-rule': 'The last rule has a condition, so that some notes would get no articulation.',
  'slot-left-behind': 'Some articulations set a slot that another leaves as it was.',
  'mixed-slot': 'One key, controller or program stands in two slots.',
  'hidden-articulation':
    'Everything that an articulation sets, another sets too, and a group or a bank besides.',
  'slot-used-twice': 'One articulation sets the same slot twice.',
  'example-failed': "One of the map's own examples gives another articulation than it expects.",
  'example-length': 'An example expects another number of articulations than it has notes.',
  // a map and the music together
  'note-is-switch': 'A note of the music would itself act as a switch.',
  'already-switched': "The part already contains this map's switches.",
  'switch-in-input': "The part has controllers or programs of its own in a slot that the map's switches use.",
  'note-out-of-range': "A note outside the instrument's range.",
  'channel-taken': 'The map sends notes to a channel on which the track has notes of its own.',
  'fraction-without-beats':
    'A fraction of a whole note cannot be measured in a file that counts SMPTE frames.',
  'chord-conflict': 'Notes struck together ask for different articulations of one slot.',
  'unclosed-note': 'A note is never released; it ends with the track.',
  'stray-release': 'A release with no note to release.',
  'mark-in-music': 'A mark in the music is not known.',
  'several-channels': 'A track has notes on several channels, and all are compiled with one map.',
  'no-notes': 'There are no notes to compile.',
  // cues
  'path-outside': "A path of a cue leads out of the cue's folder.",
  'same-name': 'Two parts of a cue, or two layers of a part, have one name.',
  'unknown-track': 'A part of a cue names a track that the source does not have.',
  'part-taken': 'Two parts of a cue would play the same notes.',
  'output-is-input': 'The output of a cue would overwrite a file that it is made from.',
  'layer-format': 'Layers need a track of their own, which files of format 2 cannot have.',
  'layer-lacks-note': "A layer's library has no such note; it is left out of the layer.",
  'no-levels': 'The dynamics of a cue need the levels of a controller, which the map does not give.',
  'no-headroom': 'A level of a cue lies beyond what the controller can reach.',
  'controller-taken': 'A level or seat of a cue would be written to a controller that the map uses itself.',
  'no-players': 'A cue says for how many players a part is, but not the map how many were recorded.',
  'far-seat': 'A recording would have to be moved by more than half the stage.',
  // timing
  'starts-late': 'A note cannot start as early as its articulation needs to be heard in time.',
  // proof
  'not-proved': 'A model of the library does not hear in the result what was decided; nothing was written.',
  // files
  'heard-otherwise': 'In a compiled file a model of the library does not hear what the map means for a note.',
  'no-sheet':
    'The music cannot be written on staves: it counts SMPTE frames, or its tracks are pieces of their own.',
  'cannot-read': 'A file cannot be read.',
  'cannot-write': 'A file cannot be written.',
} as const;

export type DiagnosticCode = keyof typeof codes;
