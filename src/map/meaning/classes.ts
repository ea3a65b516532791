/** A class of articulations, as the attribute type of a note-on names it. */
export interface ArticulationClass {
  /** Attribute type of the note-on: 0x10 … 0x17. */
  readonly type: number;
  /** As it is printed. */
  readonly title: string;
  /** Printed names by subclass, from 0; a subclass behind the last is reserved. */
  readonly subclasses: readonly string[];
}

/**
 * The classes and subclasses of M2-123-UM 1.0 (MIDI-CI Profile for Note On Selection of Orchestral Articulation,
 * 2024), tables 7–15, by their printed names; long ones are cut at their first dash, colon or bracket.
 */
export const articulationClasses: readonly ArticulationClass[] = [
  {
    type: 0x10,
    title: 'Core Sounds – Sustains and Strikes',
    subclasses: [
      ...['Normal Sustains & Strikes', 'Normal Sustains & Strikes, Part 2', 'Legato and Legato Slurred'],
      ...['Molto Legato', 'Glissando', 'Detaché', 'Marcato', 'Martelé', 'Senza Vibrato', 'Con Vibrato'],
      'Synchronized Vibrato',
    ],
  },
  {
    type: 0x11,
    title: 'Staccatos and Shorts',
    subclasses: [
      ...['Normal Staccato Off String', 'Normal Staccato On String', 'Slurred Staccato', 'Accented Staccato'],
      ...['Staccatissimo', 'Spiccato', 'Sautillé', 'Martellato', 'Long Staccato', 'Portato', 'Pizzicato'],
      ...['Bartok Pizzicato', 'Col Legno Battuto', 'Col Legno Gestrichen', 'String Hand Tap', 'Jete'],
    ],
  },
  {
    type: 0x12,
    title: 'Same Note Trills/Repeats',
    subclasses: [
      ...['Tremolo / Flutter Tongue', 'Growl / Razz', 'Other Coloristic Tremolo', 'One Note Trills'],
      ...['2 Repeats', '3 Repeats', '4 Repeats', '5 Repeats', '6 Repeats', 'Faster Repeats'],
    ],
  },
  {
    type: 0x13,
    title: 'Intervallic Trills',
    subclasses: [
      ...['Half Step (Classical)', 'Half Step (Baroque)', 'Whole Step (Classical)', 'Whole Step (Baroque)'],
      ...['Minor 3rd', 'Major 3rd', 'Perfect 4th', 'Tritone', 'Perfect 5th', 'Minor 6th', 'Major 6th'],
      ...['Minor 7th', 'Major 7th', 'Octave'],
    ],
  },
  {
    type: 0x14,
    title: 'Additional Colors – Sustained',
    subclasses: [
      ...['Harmonics – Natural', 'Harmonics – Artificial', 'Col Legno Tratto', 'Flautando'],
      ...['Polyphony: Multiple Octaves', 'Polyphony: Intervals, Chords', 'Cuivré', 'Lontano'],
      'Singing into Instrument',
    ],
  },
  {
    type: 0x15,
    title: 'Pitch and Dynamic Gestures',
    subclasses: [
      ...['Pitch Fall End', 'Pitch Fall Start', 'Pitch Rise End', 'Pitch Rise Start', 'Blue Note Down'],
      ...['Blue Note Up', 'Grace Notes “Classical”', 'Grace Notes “Baroque”', 'Shakes', 'Crescendo'],
      ...['Decrescendo', 'Cresc Decresc', 'Decresc Cresc', 'Sfz Crescendo'],
    ],
  },
  {
    type: 0x16,
    title: 'Scales, Runs, and Arpeggios',
    subclasses: [
      ...[
        'Playable Runs',
        'Playable Tremolos',
        'Playable Glissando',
        'Scales/Runs Major',
        'Scales/Runs Minor',
      ],
      ...[
        'Scales/Runs Dominant 7th',
        'Scales/Runs Diminished Whole Half',
        'Scales/Runs Diminished Half Whole',
      ],
      ...['Whole Tone Scale 1', 'Whole Tone Scale 2', 'Pentatonic Scale Major', 'Pentatonic Scale Minor'],
      ...['Lydian', 'Lydian ♭7', 'Chromatic', 'Other Scales and Runs'],
    ],
  },
  {
    type: 0x17,
    title: 'Effects and Noises',
    subclasses: [
      ...['Assorted Noises', 'Behind the Bridge', 'Random Pizz', 'Harmonic Glissando', 'Random Glissando'],
      ...['Air Sound', 'Mechanical Sounds – Sustained', 'Mechanical Sounds – Short', 'Finger Glide'],
      ...['Fret Buzz/Noise', 'Thump', 'Knock', 'Slap', 'Pop', 'Tap', 'Click'],
    ],
  },
];

/** A printed name as it is written in a map: `staccatos-and-shorts`, `detache`. */
export function printedName(title: string): string {
  return title
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .replace('♭', 'flat-')
    .toLowerCase()
    .replace(/&/gu, 'and')
    .replace(/[^a-z0-9]+/gu, '-')
    .replace(/^-|-$/gu, '');
}
