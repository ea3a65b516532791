/** From one MIDI note to another, both within it. */
export interface PitchRange {
  readonly low: number;
  readonly high: number;
}
