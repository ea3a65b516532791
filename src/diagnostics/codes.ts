/** An error makes the output wrong, or impossible; a warning does not. */
export type Severity = 'error' | 'warning';

export interface CodeMeaning {
  readonly severity: Severity;
  /** One sentence, for the list of codes. */
  readonly means: string;
}

const error = (means: string): CodeMeaning => ({ severity: 'error', means });
const warning = (means: string): CodeMeaning => ({ severity: 'warning', means });

/** Every diagnostic code, how grave it is, and what it means. The list of codes in this folder is made from it. */
export const codes = {
  // MIDI files
  'not-midi': error('The file does not begin with a MIDI header chunk.'),
  'midi-header': error('The MIDI header is damaged or names an unknown format or division.'),
  'midi-truncated': error('The file ends in the middle of a chunk or an event.'),
  'midi-event': error('A track holds bytes that are no MIDI event.'),
  'no-tracks': error('The file has no tracks.'),
  'track-count': warning('The header names another number of tracks than the file has.'),
  'midi-tempo': warning('A tempo or time signature that means nothing was passed over.'),
  'midi-time': error(
    'An event would stand further behind the one before it than a file can say, or ahead of it.',
  ),
  'midi-too-large': error('The MIDI file is larger than the limit.'),
  // scores
  'score-kind': error('The file is neither MusicXML nor MEI.'),
  'score-encoding': error('The score is not text in an encoding that XML readers must know.'),
  'score-too-large': error('The score, or what is packed in it, is larger than the limit.'),
  'xml-syntax': error('The file is not well-formed XML.'),
  'xml-entity': error('The file declares entities of its own, or asks for a file to be put into it.'),
  'zip-damaged': error('The compressed score cannot be unpacked.'),
  'zip-path': error('A path in the compressed score leads out of it.'),
  'zip-content': error('The compressed score does not hold the score that it names.'),
  'score-value': error(
    'A value in the score means nothing where it stands; a warning where it was passed over.',
  ),
  'score-missing': error(
    'Something that the score needs is not there; a warning where it could be done without.',
  ),
  'score-jump': error('A repeat or jump in the score leads nowhere; a warning where it was passed over.'),
  'score-unpaired': warning('A tie, slur or hairpin in the score begins or ends without its other half.'),
  'score-microtone': warning('A pitch between two keys was moved to the nearer one.'),
  'score-inferred': warning('A score leaves something open that was read as it is in print.'),
  'score-passed-over': warning(
    'An element of the score is not read, so that what it says is not in the music.',
  ),
  'score-no-key': warning('A percussion note has no key in the score.'),
  // YAML
  'yaml-syntax': error('The file is not well-formed YAML.'),
  'yaml-duplicate-key': error('A key stands twice in one mapping.'),
  'yaml-alias': error('Aliases that unfold without end.'),
  'merge-conflict': error('A merge was left unfinished: both versions stand in the file, or git says so.'),
  'map-too-large': error('The map or cue is larger than the limit.'),
  'map-empty': error('The file has no map or cue in it.'),
  // the schema
  'unknown-key': error('A key that the format does not have.'),
  'old-word': warning('A key has the name that the format had for it before.'),
  'missing-key': error('A key that the format needs is not there.'),
  'wrong-type': error('A value of another kind than the format asks for.'),
  'unknown-value': error('A value that is not one of those allowed.'),
  'out-of-range': error('A number outside what is allowed.'),
  'bad-duration': error(
    'A duration that is neither a time (25ms, 2s) nor a fraction of a whole note (1/16).',
  ),
  'bad-pitch': error('A pitch that is no note name and no MIDI note.'),
  'bad-name': error('A name with characters that names may not have.'),
  'bad-percentage': error('A share that is not written as 15%.'),
  'bad-switch': error(
    'A switch message that is none of note, controller, program or channel, or several at once.',
  ),
  // a map's meaning
  'unknown-articulation': error('A name that is no articulation of the map.'),
  'unknown-mark': error(
    'A mark that is neither a notation element, a playing word nor an articulation of the map.',
  ),
  'same-switch': error('Two articulations have the same switch.'),
  'switch-in-range': error('A switch note lies inside the playable range.'),
  'range-reversed': error('A range whose lower end lies above its upper end.'),
  'dead-rule': warning('A rule that can never fire.'),
  'no-last-rule': error('The last rule has a condition, so that some notes would get no articulation.'),
  'aspect-left-behind': warning('Some articulations set an aspect that another leaves as it was.'),
  'mixed-aspect': error('One key, controller or program stands in two aspects.'),
  'hidden-articulation': warning(
    'Everything that an articulation sets, another sets too, and a named aspect or a bank besides.',
  ),
  'aspect-used-twice': error('One articulation sets the same aspect twice.'),
  'base-chain': error('Maps rest on each other in a circle, or more than eight stand behind each other.'),
  'key-taken': error('A key on which an articulation sends its notes is a switch key too.'),
  'no-dynamics': warning(
    'Articulations have their loudness from a controller, and the map does not say from which.',
  ),
  'loudness-confined': warning('Velocities are to pick a recording, and to say how loud it is as well.'),
  'key-outside': warning('A key on which an articulation sends its notes lies outside the range.'),
  'example-failed': error("One of the map's own examples gives another articulation than it expects."),
  'example-out-of-range': warning("An example has a note outside the instrument's range."),
  'example-length': error('An example expects another number of articulations than it has notes.'),
  // a map and the music together
  'note-is-switch': error('A note of the music would itself act as a switch.'),
  'already-switched': error("The part already contains this map's switches."),
  'switch-in-input': warning(
    "The part has controllers or programs of its own in an aspect that the map's switches use.",
  ),
  'note-out-of-range': warning("A note outside the instrument's range."),
  'beyond-keys': error('A note would have to be sent on a key below 0 or above 127.'),
  'shared-key': warning(
    'Two notes need one key of the library at once, and the release of one ends the other.',
  ),
  'channel-taken': error('The map sends notes to a channel on which the track has notes of its own.'),
  'fraction-without-beats': error(
    'A fraction of a whole note cannot be measured in a file that counts SMPTE frames.',
  ),
  'chord-conflict': warning('Notes struck together ask for different articulations of one aspect.'),
  'unclosed-note': warning('A note is never released; it ends with the track.'),
  'stray-release': warning('A release with no note to release.'),
  'mark-in-music': warning('A mark in the music is not known.'),
  'few-players': warning('A chord of a divided part has more notes than its desks have players.'),
  'unread-options': warning(
    'A text at the beginning of a track is to say what it was compiled with, but is not in order.',
  ),
  'mark-for-all': warning('A mark in a song of format 0 names no channel, and holds for all of them.'),
  'several-channels': warning('A track has notes on several channels, and all are compiled with one map.'),
  'no-notes': error('There are no notes to compile.'),
  // cues
  'path-outside': error('A path of a cue, or the base of a map, leads out of the folder of that file.'),
  'same-name': error('Two parts of a cue, or two layers of a part, have one name.'),
  'unknown-track': error('A track is named that the music does not have.'),
  'several-tracks': error('Several tracks have notes, and none of them was chosen.'),
  'part-taken': error('Two parts of a cue would play the same notes.'),
  'output-not-music': error('A cue names an output that is no MIDI file, or is hidden.'),
  'output-kept': error('A file that is no music stands where a cue would write.'),
  'output-is-input': error('The output of a cue would overwrite a file that it is made from.'),
  'layer-format': error('Layers need a track of their own, which files of format 2 cannot have.'),
  'layer-lacks-note': warning("A layer's library has no such note; it is left out of the layer."),
  'no-levels': error('The dynamics of a cue need the levels of a controller, which the map does not give.'),
  'no-curve': error('A cue names a controller for the dynamics that was not recorded in the part.'),
  'two-curves': error('Two recorded controllers could be the dynamics of a part, and one would be lost.'),
  'nothing-to-keep': warning('A cue keeps recorded dynamics, but none were recorded in the part.'),
  'curve-unheard': warning(
    "Recorded dynamics are on a controller that the part's library does not listen to.",
  ),
  'layer-channels': error('A layer has one channel, but its part has several.'),
  'level-apart': warning(
    'Of parts with measured maps and levels, one is not heard at the common loudness: it was not measured, or has no level.',
  ),
  'no-headroom': warning('A level of a cue lies beyond what the controller can reach.'),
  'controller-taken': error(
    'A level or seat of a cue would be written to a controller that the map uses itself.',
  ),
  'no-players': warning('A cue says for how many players a part is, but not the map how many were recorded.'),
  'seat-unreached': warning(
    'The controller of the seat does not move a recording so far, as its library was measured.',
  ),
  'far-seat': warning('A recording would have to be moved by more than half the stage.'),
  // music that is arranged
  'no-strokes': error('The rhythm has no notes.'),
  'no-chords': error('There are no chords.'),
  'no-bars': error('Chord symbols stand in bars, and the music has none.'),
  'unknown-chord': error('A word that is no chord symbol.'),
  'stroke-before-chords': warning('Strokes come before the first chord, and strike it.'),
  'chords-end': warning('Strokes come behind the last chord, and strike it.'),
  'no-parts': error('There are no parts to lay chords out for.'),
  'same-part': error('Two parts that chords are laid out for have one name.'),
  'part-range': error('The range of a part is none.'),
  'unknown-part': error('The tune is to lie in a part that there is not.'),
  'part-rests': warning('A part rests where no tone of the chord is free for it.'),
  'tune-moved': warning('The tune was moved by octaves, into the range of its part.'),
  cramped: warning('No layout of a chord is free of what is to be avoided; the least of it was chosen.'),
  'many-layouts': warning('A chord has more layouts than are compared.'),
  // clips and scores that are written
  'clip-resolution': error('A clip file cannot count time as the music does.'),
  'clip-tempo': error('A tempo that a clip file cannot say.'),
  'clip-signature': error('A time signature that a clip file cannot say.'),
  'clip-channel': error('Two parts of a clip would go to one channel, or one to a channel that is none.'),
  'clip-left-out': warning('Texts, or exclusive messages in several parts, are not in the clip.'),
  'note-too-low': warning('A note lies below what MusicXML has, and is written an octave higher.'),
  // timing
  'held-back': warning(
    'Notes that timing options would move onto or past others are moved only part of the way.',
  ),
  'starts-late': warning('A note cannot start as early as its articulation needs to be heard in time.'),
  // proof
  'not-proved': error(
    'A model of the library does not hear in the result what was decided; nothing was written.',
  ),
  // learning
  'nothing-learned': error('Nothing that can be measured at a note tells which articulation it has.'),
  'no-sketch': error('A sketch is no mapping of keys in lines, so that rules cannot be written into it.'),
  // sound
  'not-wav': error('The file is not a WAV file, or its header is damaged.'),
  'wav-format': error(
    'A WAV file of a kind that is not read: compressed sound, or an unusual width or rate.',
  ),
  'wav-channels': error('A sound file that is not stereo.'),
  'wav-truncated': error('The sound file ends before its sound begins.'),
  'sound-short': warning('The sound of a sheet ends before its last note is heard.'),
  'sound-long': error('A sound is longer than a page is given, or than a WAV file holds.'),
  'no-clicks': error(
    "The clicks of this map's probe are not in a bounce, so that nothing of it is written into the map.",
  ),
  'not-written': warning('A measured value was not written into the map.'),
  'bank-unknown': error(
    'The file is no bank of sounds that is understood: neither SoundFont 2 or 3 nor DLS.',
  ),
  'bank-truncated': error('A bank of sounds ends before the sizes that are written in it say.'),
  'bank-too-large': error('A bank of sounds is larger than the limit, or unfolds to more.'),
  'bank-structure': error('A bank of sounds lacks a part that it needs, or has one that means nothing.'),
  'bank-sound': error('A sound of a bank that the music needs cannot be played.'),
  'no-bank': error('No bank of sounds was named, and none is in the usual places.'),
  'no-library': error(
    'The package that makes the sound, the one that compresses it, or the one that engraves, is not installed.',
  ),
  'nothing-to-hear': error('No note is left to be heard.'),
  'sound-failed': error('The package that makes the sound gave up, or what it made is no sound.'),
  // files
  'heard-otherwise': warning(
    'In a compiled file a model of the library does not hear what the map means for a note.',
  ),
  'no-sheet': error(
    'The music cannot be written on staves: it counts SMPTE frames, or its tracks are pieces of their own.',
  ),
  'no-files': error('A folder or a pattern has no map and no cue in it.'),
  'no-repository': error('Versions are asked for, but no git repository is here, or no git.'),
  'unknown-revision': error('A revision is named that the repository does not have.'),
  'history-cut': error('The history that is here does not tell what changed since a revision.'),
  'unplayed-recording': warning('A recording is played by no map, so that no change of a map is seen in it.'),
  'changed-take': warning('Notes or other events of a take differ from those of the take that is compared.'),
  'meaning-lost': warning('An articulation of one library has nothing in another that means the same.'),
  'not-moved': error(
    'The line of a cue that names a map cannot be written anew without changing something else in the file.',
  ),
  'changed-articulation': warning('A note gets another articulation than from the map that is compared.'),
  'command-line': error('The command line cannot be carried out as it stands.'),
  'cannot-read': error('A file cannot be read.'),
  'cannot-write': error('A file cannot be written.'),
  'left-over': warning('A temporary file cannot be taken away; the next run into its folder does.'),
  'not-kept': warning(
    'A file that was replaced is not as it was in its rights, its owner, or its other names (hard links).',
  ),
} as const satisfies Readonly<Record<string, CodeMeaning>>;

export type DiagnosticCode = keyof typeof codes;
