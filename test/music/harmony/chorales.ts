/**
 * Phrases of four-part chorales. The notes are those of editions that their typesetters have placed in the public domain,
 * in the collection of the Mutopia Project (mutopiaproject.org; the folder is named beside each); written out here
 * without repeats. The readings of each beat are our own, by hand, as in a course of harmony: tones that pass, neighbours
 * and suspensions are no part of a chord. Two readings, parted by "|", where a beat has one chord in its first half and
 * another in its second, or is read with and without a tone that passes through.
 */
export interface Chorale {
  readonly title: string;
  readonly key: string;
  readonly beatsPerBar: number;
  /** Beats before the first whole bar. */
  readonly upbeat: 0 | 1;
  /** From the bass up. A note is a quarter; h half, e eighth, s sixteenth, w whole, "." dotted; "-" is a rest. */
  readonly voices: readonly string[];
  /** One a beat; "." is a rest. */
  readonly beats: string;
}

/** Were looked at while costs were set. */
export const chorales: readonly Chorale[] = [
  {
    // BachJS/BWV269 (Kirnberger, C. P. E. Bach, 1784–1787; typeset by L. Ducos), public domain
    title: 'Aus meines Herzens Grunde, J. S. Bach, BWV 269, bars 0–7',
    key: 'G major',
    beatsPerBar: 3,
    upbeat: 1,
    voices: [
      'G2 G3 E3 F#3 G3 D3 E3 C3 B2e A2e G2 D3h G2 F#2 G2 A2 B2 C3 D3 G2h',
      'B3 B3 C4e B3e A3 G3 F#3 G3 C4e B3e C4 D4 D4h D4 A3 B3 C4 D4 E4 D4e C4e B3h',
      'D4 D4 E4 D4 D4h B3 E4e D4e E4e F#4e G4 F#4h G4 D4 E4 F#4 G4h F#4 D4h',
      'G4 G4h D5 B4. A4e G4 G4. A4e B4 A4h B4 D5h C5 B4 A4h G4h',
    ],
    beats: `G G C/E|Em D/F♯ G D Em C C/B|Cmaj7/B|F♯dim/A G D D G
      D/F♯ Em7/G F♯dim/A G/B Am7/C D|D7 G G`,
  },
  {
    // BachJS/O_Haupt_voll_Blut (Edition Peters; typeset by "dwb"), public domain
    title: 'O Haupt voll Blut und Wunden, J. S. Bach, BWV 244/54, bars 0–4 and 8–10',
    key: 'D minor',
    beatsPerBar: 4,
    upbeat: 1,
    voices: [
      'D4e C4e Bb3 A3 G3 F3 Bb2 C3 F3 C#3 D3e E3e F3e G3e A3 A2 D3h. D3 G3 A3 Bb3e A3e G3 F3h F3',
      'D4 D4e E4e F4 G4 C4 D4 C4 C4 E4 E4 D4 D4 C#4 A3h. D4e C4e Bb3 C4 C4 Bb3e C4e D4 C4e Bb3e C4',
      'F4 F4e G4e A4 D4e E4e F4 F4 E4 F4 A4 A4 A4 A4 A4e G4e F4h. A4 G4 G4e F4e F4 Bb4 Bb4 A4e G4e A4',
      'A4 D5 C5 Bb4 A4 G4h A4 E5 F5 F5 E5e D5e E5 D5h. F5 E5e D5e C5 D5 E5 F5h F5',
    ],
    beats: `Dm B♭ F/A Gm|Edim/G F Gm7/B♭ C F A/C♯ Dm Dm/F Asus4|Dm/A A|A7 Dm Dm Dm Dm
      Edim/G F/A B♭ Edim/G|C7/G B♭/F F F`,
  },
];

/** Not looked at while figures were set: what they are worth on other music. */
export const unseen: readonly Chorale[] = [
  {
    // as above
    title: 'O Haupt voll Blut und Wunden, J. S. Bach, BWV 244/54, bars 10–16',
    key: 'F major',
    beatsPerBar: 4,
    upbeat: 1,
    voices: [
      'F3 Bb3 F#3 G3 G2 D3h. B2 C3 C4e B3e A3 G3 F3 G3 C3 F3 G3 A3e Bb3e C4 C3 F3h.',
      'F4e Eb4e D4 D4 D4 D4 D4h. D4 C4e D4e E4 F4 G4 A4 G4 G4 C4 Bb3 C4 C4e Bb3s A3s G3e C4e C4h.',
      'A4 A4e G4e A4 G4e F#4e G4 F#4h. G4 G4 C5 C5 C5 C5 B4 C5 F4e E4e D4e E4e F4 F4 E4 F4h.',
      'C5 D5 C5 Bb4e A4e Bb4 A4h. F5 E5e F5e G5 F5 E5 D5h E5 A4 Bb4 A4 G4 C5 A4h.',
    ],
    beats: `F|F7 B♭maj7|Gm/B♭ D7/F♯ Gm Gm D D D G7/B C C F/A C/G Dm7/F G
      C F|Fmaj7 Gm|Edim/G F/A Csus4 C F F F`,
  },
  {
    // BachJS/Nun_komm.28 (typeset by R. Marshall), public domain
    title: 'Nun komm, der Heiden Heiland, J. S. Bach, BWV 36/8, bars 1–8',
    key: 'B minor',
    beatsPerBar: 4,
    upbeat: 0,
    voices: [
      'B3e A3e G3 F#3e E3e D3e B2e E3e D3e E3e F#3e B2h B2 B3 A3e G3e F#3 E3 D3 G3h F#3e E3e D3e C#3e D3 G3e F#3e E3 F#3 B2h B3e A3e G#3 F#3e E3e F#3e G#3e A#3e B3e F#3 B2h',
      'D4 C#4e B3e C#4 B3 B3. A#3e F#3h D4e C#4e B3 C#4 D4 G3 A3e B3s C4s B3h A3 E4 D4e C#4e B3 G4 C#4e F#4e D4h D4 C#4e B3e C#4 F#4 E4e D4e C#4s D4s E4e D#4h',
      'F#4 E4 F#4 F#4e G4s A4s G4e F#4e E4 D4h F#4. G#4e A4. B4e C#5 D5e F#4e G4h A4 A4 A4e A#4e B4 C#5e B4e A#4 F#4h F#4 E#4 F#4e G#4e A4e B4e F#4e B4 A#4e F#4h',
      'B4 B4 A4 D5 C#5e B4e C#5 B4h B4e C#5e D5 E5 D5 E5 F#5 D5h D5 E5 F#5e E5e D5 E5e D5e C#5 B4h B4 B4 A4 D5 C#5e B4e C#5 B4h',
    ],
    beats: `Bm Em/G F♯m Bm/D C♯m7♭5/E|Bm/D F♯7 Bm Bm Bm Bm|G♯dim/B A D/F♯ C♯dim/E D G G
      D/F♯ A/C♯ D G|Bm/F♯ C♯dim/E|Em7 F♯ Bm Bm Bm C♯7/G♯ F♯m D/F♯|G♯m7♭5
      F♯7/A♯|Bm F♯sus4|F♯|F♯7 B B`,
  },
  {
    // LutherM/ein_feste_burg (typeset by S. Dunlop), public domain
    title: 'Ein feste Burg, M. Luther, from the second line',
    key: 'C major',
    beatsPerBar: 4,
    upbeat: 1,
    voices: [
      'C3 E3 C3 G3 E3 A2 D3 G2 A2 E3 F3 C3 A2 D3 G2 C3 C3 C3 A2 B2e C3e D3 G2h. C3 B2 C3 F3 D3 A2h. G#2 A2 B2 C3 D3 G2h. F2 A2 C3 C#3 D3 E3h. A2 E3 F3 C3 A2 D3 G2 C3',
      'G3 G3 G3 B3 G3 E3 F#3 G3 E3 G3 F3 E3 E3 F3 G3e F3e E3 E3 G3 C4 B3 A3 G3h. E3 G3 G3 F3 F3 E3h. B3 A3 G#3 A3 F#3 G3h. C4 C4 B3 A3 A3 G#3h. A3 G3 A3 C4 C4 F3 G3e F3e E3',
      'E4 C4 E4 D4 E4 C4 D4e C4e B3 C4 E4 C4 C4 C4 A3 B3 C4 C4 E4 E4 D4 D4e C4e B3h. C4 D4 E4 C4 D4 C4h. E4 E4 E4 E4 D4e C4e B3h. C4 F4 E4 E4 D4 B3h. C4 E4 C4 E4 E4 A3 B3 C4',
      'C5 C5 C5 G4e A4e B4 C5e B4e A4 G4 C5 B4 A4 G4 A4 F4e E4e D4 C4 C4 G4 A4 G4 F#4 G4h. C4 G4 G4 A4 B4 C5h. B4 C5 B4 A4 A4 G4h. A4 A4 G4 A4 F4 E4h. C5 B4 A4 G4 A4 F4e E4e D4 C4',
    ],
    beats: `C C/E C G Em Am D|D7 G Am Em F C Am Dm G|G7 C C C Am G/B D|D7 G G G C G/B C F Bdim/D Am Am Am
      E/G♯ Am E/B Am/C D|D7 G G G F F/A Cmaj7 A/C♯ Dm E E E Am Em F C Am Dm G|G7 C`,
  },
  {
    // NeumarkG/bremen (typeset by S. Dunlop), public domain
    title: 'Wer nur den lieben Gott lässt walten, G. Neumark, from the second line',
    key: 'A minor',
    beatsPerBar: 3,
    upbeat: 1,
    voices: [
      'A2 A3 G#3 A3 E3 F3e E3e D3 E3 E3 A2 B2 C3 F3e E3e D3 E3 A2 E3 A3 G3e F3e E3e D3e C3 F3 G3 C3 C3 B2 A2 D3e E3e F3 E3e D3e E3 A2 A2h.',
      'A3e B3e C4 B3 A3 G#3 A3 D4e C4e B3 B3 C4 G3 G3 A3 B3e C4e D4 C4 G#3 A3 B3 C4 C4 C4 B3 C4 G3 G#3 A3 A3e G#3e A3 A3 G#3 A3 A3h.',
      'C4e D4e E4 E4 E4 E4e D4e C4 F4 E4 E4 E4 D4 C4 C4 F4 E4 E4 E4 E4 G4 G4 G4 A4 G4 E4 E4 E4 E4 F4e E4e E4e D4e E4. D4e C#4 C#4h.',
      'E4 A4 B4 C5 B4 A4 B4e A4e G#4 G4 G4 F4 E4 A4 A4 G#4 A4 B4 C5 D5 E5 E5 D5 D5 C5 E5 D5 C5 B4 A4e B4e C5 B4e B4e A4 A4h.',
    ],
    beats: `Am Am E/G♯ Am E|E7 F|Am/E Bdim/D|Dm|Dm7 E Em Am7 G7/B C F|Am/E Bm7♭5/D|Dm7 E7 Am
      E Am G C/E C Dm7/F G C C E7/B Am Bm7♭5/D|E Fmaj7|Bm7♭5/F Am/E E|E7 A A A A`,
  },
  {
    // NicolaiP/wie_schon_leuchtet (typeset by S. Dunlop), public domain
    title: 'Wie schön leuchtet der Morgenstern, P. Nicolai, from the second line',
    key: 'E♭ major',
    beatsPerBar: 4,
    upbeat: 1,
    voices: [
      'Eb3 D3 Eb3 C3 D3 Eb3e F3e Bb2h Eb3e C3e Bb2e Eb3e Bb2e F3 F3 Bb2h Eb3e Ab2 G2 Ab2e Eb2e Bb2 Eb2h G3 Eb3 D3 Eb3 Eb3e Eb2e Bb2e Bb2e Eb3e Eb2e Bb2e Bb2e Eb3e G2e Bb2 Eb2h C3 G2 Ab2 Bb2 C3e Eb3e Bb2 Eb2w',
      'G3 F3 G3 G3 Bb3 Bb3e A3e Bb3h G3e G3e Bb3e Bb3e Bb3e Bb3 A3 Bb3h G3e Ab3 Bb3 Eb3e Eb3e Eb3e D3e G3h Bb3 Bb3 Bb3 Bb3 Eb3e Bb3e Bb3e F3e Eb3e Bb3e Bb3e Bb3e Bb3e Bb3e Bb3 G3h G3 Bb3 Ab3 F3 C4e Bb3e Bb3 G3w',
      'Bb3 Bb3 Bb3 C4 F4 G4e F4e D4h Eb4e Eb4e F4e G4e F4e F4 F4 D4h Eb4e Eb4 Eb4 C4e Bb3e Bb3 Bb3h D4 Eb4 F4 Eb4 Bb3e Eb4e Eb4e D4e Bb3e Eb4e Eb4e D4e Eb4e Eb4e D4 Eb4h Eb4 Eb4 Eb4 D4 Eb4e Eb4e Eb4e D4e Bb3w',
      'Eb4 Bb4 G4 Eb4 Bb4 C5e C5e Bb4h Bb4e C5e D5e Eb5e D5e C5 C5 Bb4h Bb4e C5 Bb4 Ab4e G4e F4 Eb4h Bb4 G4 Bb4 G4 G4e G4e F4e F4e G4e G4e F4e F4e G4e G4e F4 Eb4h Eb5 Bb4 C5 Bb4 Ab4e G4e F4 Eb4w',
    ],
    beats: `E♭ B♭/D E♭ Cm B♭/D Cm7/E♭|F B♭ B♭ E♭|Cm B♭|E♭ B♭|Fsus4 Fsus4|F F|B♭ B♭ B♭|E♭ A♭ E♭/G A♭|E♭ B♭sus4|B♭ E♭ E♭
      Gm E♭ B♭/D E♭ E♭ B♭sus4|B♭ E♭ B♭sus4|B♭ E♭|E♭/G B♭ E♭ E♭ Cm E♭/G A♭ B♭ A♭/C|E♭ B♭sus4|B♭ E♭ E♭ E♭ E♭`,
  },
];
