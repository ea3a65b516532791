/** How thorough a probe is. */
export interface ProbeOptions {
  /** Two pitches and two values, no keys one by one. */
  readonly quick?: boolean;
  /** Two more seconds for each note, for recordings with a long room. */
  readonly room?: boolean;
}

/** What a slot is played for. */
export type SlotKind = 'note' | 'joined' | 'pan' | 'curve' | 'key';

export interface ProbeNote {
  /** From the beginning of the plan to its note-on. Unit: seconds. */
  readonly at: number;
  /** How long its key is held. Unit: seconds. */
  readonly held: number;
  readonly pitch: number;
  readonly velocity: number;
}

/** One thing that is played, and the time that it has. */
export interface ProbeSlot {
  readonly kind: SlotKind;
  /** From the beginning of the plan: the switches and controllers are sent here. Unit: seconds. */
  readonly at: number;
  /** Until the next slot. Unit: seconds. */
  readonly length: number;
  readonly articulation: string;
  /** One note; two where they are joined. */
  readonly notes: readonly ProbeNote[];
  /** The value of the controller that shapes loudness; absent where the map names none. */
  readonly value?: number;
  /** The value of controller 10. */
  readonly pan: number;
}

/** What is played when. The same map and options always give the same plan. */
export interface ProbePlan {
  readonly options: Required<ProbeOptions>;
  /** In order of time. */
  readonly slots: readonly ProbeSlot[];
  /** When the clicks are heard, three at each end. Unit: seconds. */
  readonly clicks: { readonly start: readonly number[]; readonly end: readonly number[] };
  /** Nothing is played from here … Unit: seconds. */
  readonly silence: { readonly from: number; readonly to: number };
  /** The whole. Unit: seconds. */
  readonly seconds: number;
  /** The value of controller and velocity that all articulations share in some slots. */
  readonly common: number;
}
