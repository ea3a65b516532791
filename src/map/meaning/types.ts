/** How a note is played, as M2-123 has it. */
export interface ArticulationId {
  /** Class, the note-on's attribute type: 0x10 … 0x17. */
  readonly type: number;
  /** 0–15. */
  readonly subclass: number;
  /** 0–15; 0 is the first sound of the subclass. */
  readonly variation: number;
}

/** A stroke: of the bow, the plectrum, the hand. */
export type Direction = 'down' | 'up';

/**
 * What a sound means, apart from any library. An aspect that is absent is left open: `con sord.` says nothing of how
 * long the note is, `pizz.` nothing of a mute.
 */
export interface Meaning {
  readonly articulation?: ArticulationId;
  readonly direction?: Direction;
  /** Type of mute, by M2-123's table 19: 0 none, 1 straight or standard … 14 stopped. */
  readonly mute?: number;
  /** How far the mute closes, 0 to 1; absent where it is all the way. */
  readonly muteAmount?: number;
  /** Where on the string or skin, 32 bits: 0 at the bridge, 0x80000000 as usual, 0xFFFFFFFF at the nut. */
  readonly position?: number;
}
