/**
 * Phrases of four-part chorales by J. S. Bach (1685–1750), in the numbering of the Breitkopf edition (c. 1875) and of
 * Riemenschneider; the notes after the encoding of that edition by C. S. Sapp (github.com/craigsapp/bach-370-chorales),
 * the readings of each beat by hand, as in a course of harmony: tones that pass, neighbours and suspensions are no part
 * of a chord. Two readings, parted by "|", where a beat has one chord in its first half and another in its second, or
 * is read with and without a tone that passes through.
 */
export interface Chorale {
  readonly title: string;
  readonly key: string;
  readonly beatsPerBar: number;
  /** Beats before the first whole bar. */
  readonly upbeat: 0 | 1;
  /** From the bass up. A note is a quarter; h half, e eighth, s sixteenth, "." dotted; "-" is a rest. */
  readonly voices: readonly string[];
  /** One a beat; "." is a rest. */
  readonly beats: string;
}

export const chorales: readonly Chorale[] = [
  {
    title: '1, BWV 269, Aus meines Herzens Grunde, bars 0–7',
    key: 'G major',
    beatsPerBar: 3,
    upbeat: 1,
    voices: [
      'G2 G3 E3 F#3 G3 D3 E3 C3 B2e A2e G2 D3h G2 F#2 G2 A2 B2 C3 D3 G2h',
      'B3 B3 C4e B3e A3 G3 F#3 G3 C4e B3e C4 D4 D4h D4 A3 B3 C4 D4 E4 D4e C4e B3h',
      'D4 D4 D4 D4 D4h B3 E4e D4e E4e F#4e G4 F#4h G4 D4 E4 F#4 G4h F#4 D4h',
      'G4 G4h D5 B4. A4e G4 G4. A4e B4 A4h B4 D5h C5 B4 A4h G4h',
    ],
    beats: `G G Em|Em7 D/F♯ G D Em C C/B|Cmaj7/B|F♯dim/A G D D G
      D/F♯ Em7/G F♯dim/A G/B Am7/C D|D7 G G`,
  },
  {
    title: '42, BWV 67/7, Du Friedefürst, Herr Jesu Christ, bars 0–9',
    key: 'A major',
    beatsPerBar: 4,
    upbeat: 1,
    voices: [
      'A3 D4e C#4e B3 A3 G#3 F#3 G#3 A3 C#3 F#3e G#3e A3 D3 E3 A2h. E3e F#3e G#3 E3 A3 E3 F#3 B2 C#3 C#3 F#3 E3 A3 G#3 F#3 E3 D3 E3 A2h.',
      'E4 D4 D4 E4 E4 F#4 E4 E4 E4 F#4 E4 F#4 E4 E4h. E4 B3 E4 E4 E4e D4e C#4 D4 C#4 C#4 C#4 E4 E4h D4 E4 F#4 E4e D4e C#4h.',
      'A4 F#4 G#4 A4 B4 A4 B4 A4 A4 A4 A4 A4 G#4 A4h. G#4 E4 G#4 A4 G#4 F#4 G#4 E#4 E#4 F#4 G#4 A4 E4 A4 A4 A4 G#4 E4h.',
      'C#5 A4 B4 C#5 E5 D5 D5 C#5 E5 D5 C#5 B4 B4 C#5h. B4 B4 B4 C#5 B4 A4 B4 G#4 G#4 A4 B4 C#5 B4e C#5e D5 C#5 B4h A4h.',
    ],
    beats: `A D G♯dim/B A E/G♯ D/F♯ E7/G♯ A A/C♯ D/F♯ A Bm7/D E A A A E
      E/G♯ E A E|E7 F♯m G♯dim/B C♯ C♯ F♯m E A E/G♯ D/F♯ A/E Bm7/D E|E7 A A A`,
  },
  {
    title: '20, BWV 302, Ein feste Burg ist unser Gott, bars 0–4',
    key: 'D major',
    beatsPerBar: 4,
    upbeat: 1,
    voices: [
      'D4e C#4e B3 A3e G3e F#3 E3 D3 E3 A2 B2 C#3 D3e E3e F#3 G3e F#3e E3e D3e A2 D3',
      'F#4 F#4 B3e C#4e D4 E4 F#4. E4s D4s C#4 F#3e G#3e A#3 B3 F#4e E4e D4 E4e A3 G3e F#3',
      'A4 D4 D4e E4e F#4 G4 A4 G#4 E4 B4 E4 D4 C#4 B3 C#4e D4 C#4e D4',
      'D5 D5 D5 A4e B4e C#5 D5e C#5e B4 A4 D5 C#5 B4 A4 B4 G4e F#4e E4 D4',
    ],
    beats: `D Bm Bm/A|Bm7/A D/F♯ C♯dim/E D E|E7 A Bm A♯dim/C♯ Bm/D F♯m|F♯m7 G C♯dim/E|D A|A7 D`,
  },
  {
    title: '74, BWV 244/54, O Haupt voll Blut und Wunden, bars 0–6',
    key: 'F major',
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
  {
    title: '32, BWV 386, Nun danket alle Gott, bars 0–4',
    key: 'A major',
    beatsPerBar: 4,
    upbeat: 1,
    voices: [
      'A2 A3e B3e C#4e A3e D3e E3e F#3e D3e A3h - A3 G#3 A3 E3e D3e C#3e A2e E3h A2',
      'C#4 C#4 C#4 D4 D4 C#4h - F#4 E4 E4 E4 E4 E4e D4s C#4s D4 C#4',
      'A4 A4 A4 A4 A4 A4h - A4 B4 A4 G#4 A4 A4e F#4e G#4 E4',
      'E5 E5 E5 F#5 F#5 E5h - C#5 D5 C#5 B4 C#5e D5e B4h A4',
    ],
    beats: `A A A/C♯|A D D/F♯|D A A . F♯m/A E7/G♯ A E|E7 A/C♯ E|Esus4 E|E7 A`,
  },
  {
    title: '64, BWV 194/6, Freu dich sehr, o meine Seele, bars 1–4',
    key: 'G major',
    beatsPerBar: 4,
    upbeat: 0,
    voices: [
      'G3 D3 G2 A2 B2e C#3e D3 A2 D2 E3 D3e C3e B2e A2e G2e F#2e G2 D2 G2h',
      'B3 F#3 G3e F#3e E3 D3e E3e F#3e. G3s A3e E3e F#3 G3 F#3 G3 A3 A3e G3e G3e F#3e B3h',
      'D4 D4 D4. C#4e B3 A3e D4e D4e C#4e D4 B3 D4 D4 D4 D4 D4 D4h',
      'G4 A4 B4 A4 G4 F#4 E4 D4 G4 A4 B4 C5 B4 A4 G4h',
    ],
    beats: `G D G A|Asus4 G/B D A|Asus4 D Em D|D7 G/B D7/F♯ G D|Dsus4 G G`,
  },
  {
    title: '38, BWV 115/6, Straf mich nicht in deinem Zorn, bars 1–4',
    key: 'E♭ major',
    beatsPerBar: 4,
    upbeat: 0,
    voices: [
      'Eb3e D3e C3e Eb3e D3e C3e Bb2e D3e C3e Bb2e Ab2e Bb2e Eb2h Ab2e G2e F2e Ab2e G2e F2e Eb2e G2e Ab2e F2e Bb2 Eb2h',
      'Bb3 C4 F3 G3 G3 C4e Bb3e Bb3h Ab3 Ab3 Bb3 Bb3 C4 Bb3e Ab3e G3h',
      'Eb4 Eb4 F4e Eb4e D4 Eb4 Eb4e D4e Eb4h Eb4 F4 Eb4e D4e Eb4 Eb4 D4 Bb3h',
      'G4 Ab4 Bb4 Bb4 Eb4 F4 G4h C5 D5 Eb5 G4 F4h Eb4h',
    ],
    beats: `E♭ A♭/C B♭/D Gm/B♭ Cm Fm7/A♭|B♭ E♭ E♭ A♭ Ddim/F E♭/G E♭ Fm7/A♭ B♭|B♭7 E♭ E♭`,
  },
  {
    title: '47, BWV 416, Vater unser im Himmelreich, bars 0–6',
    key: 'D minor',
    beatsPerBar: 4,
    upbeat: 1,
    voices: [
      'D3 C#3 D3 E3 F3e G3e A3 A2 D3 D3 C3 Bb2 A2e C3e F3 Bb3 Bb3 A3 A3e G3e F3. E3e D3 G3 G#3 A3 D3',
      'D4 A3 A3 G3 D4 D4 A3 F3 D4 A3 Bb3 C4 C4 D4e C#4e D4 C#4 C4 C4e A3e B3e C#4e D4e C4e Bb3 B3 A3 A3',
      'F4 E4 D4 C#4 D4e E4e F4 C#4 A3 F4 E4 D4 E4 F4 F4 E4e D4e E4 E4 A4 G4 F4 G4 F4e E4e E4 F4',
      'A4 A4 F4 G4 A4 F4 E4 D4 A4 A4 G4 C5 A4 F4 G4 A4 A4e B4e C5 D5e E5e F5 E5 D5 C#5 D5',
    ],
    beats: `Dm A/C♯ Dm C♯dim/E Dm/F Dm/A A Dm Dm Am/C Gm/B♭ Am F B♭ Em7♭5/B♭|Gm/B♭ A Am
      F G7/F|C♯dim/E Dm Edim/G G♯dim7 A Dm`,
  },
];

/** Not looked at while figures were set: what they are worth on other music. */
export const unseen: readonly Chorale[] = [
  {
    title: '67, BWV 39/7, Freu dich sehr, o meine Seele, bars 1–4',
    key: 'G major',
    beatsPerBar: 4,
    upbeat: 0,
    voices: [
      'G3 F#3 G3 D3 E3 F#3e G3e A3e A2e D3 E3 F#3 G3 E3 D3e C3e D3 G2h',
      'B3 A3 G3 F#3 G3 A3 A3e G3e F#3 B3 A3 G3e F#3e G3 G3 F#3 D3h',
      'D4 D4 D4 D4 D4e C#4e D4 C#4 A3 E4 D4 D4 C4 D4 D4e C4e B3h',
      'G4 A4 B4 A4 G4 F#4 E4 D4 G4 A4 B4 C5 B4 A4 G4h',
    ],
    beats: 'G D/F♯ G D Em7|C♯dim/E D/F♯ A|A7 D Em D/F♯ G C/E G/D D|D7 G G',
  },
  {
    title: '28, BWV 36/8, Nun komm, der Heiden Heiland, bars 1–4',
    key: 'B minor',
    beatsPerBar: 4,
    upbeat: 0,
    voices: [
      'B3e A3e G3 F#3e E3e D3e B2e E3e D3e E3e F#3e B2h B2 B3 A3e G3e F#3 E3 D3 G3h',
      'D4 C#4e B3e C#4 B3 B3. A#3e F#3h D4e C#4e B3 C#4 D4 G3 A3e B3s C4s B3h',
      'F#4 E4 F#4 F#4e G4s A4s G4e F#4e E4 D4h F#4. G#4e A4. B4e C#5 D5e F#4e G4h',
      'B4 B4 A4 D5 C#5e B4e C#5 B4h B4e C#5e D5 E5 D5 E5 F#5 D5h',
    ],
    beats: `Bm Em/G F♯m Bm/D C♯m7♭5/E|Bm/D F♯7 Bm Bm Bm Bm|G♯dim/B A D/F♯ C♯dim/E D G G`,
  },
];
