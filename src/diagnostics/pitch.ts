const names = ['C', 'C#', 'D', 'D#', 'E', 'F', 'F#', 'G', 'G#', 'A', 'A#', 'B'];

/** A MIDI note as a library's manual spells it: 60 is `C3`, `C4` or `C5`. */
export function spellPitch(note: number, middleC: 3 | 4 | 5): string {
  return `${names[note % 12] ?? ''}${Math.floor(note / 12) - 5 + middleC}`;
}

/** A shift in words: `12 semitones lower`. */
export function spellShift(semitones: number): string {
  return `${Math.abs(semitones)} semitones ${semitones < 0 ? 'lower' : 'higher'}`;
}
