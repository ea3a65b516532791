import type { Music } from './music.js';

/** Something to consider, where it is in the music. */
export interface InspectionRemark {
  /** One sentence. */
  readonly says: string;
  /** The part's number; absent where it is about several. */
  readonly part?: number;
  /** Bars from 1, both ends included; null or absent in files without bars. */
  readonly from?: number | null;
  readonly to?: number | null;
  /** Where it stands; absent where it is about a whole bar. */
  readonly tick?: number;
}

/** One thing that is looked for in the music, and every way in which it is told. */
export interface Inspection<Found> {
  /** Under which it stands in JSON, and in the list of the README. */
  readonly name: string;
  look(music: Music): Found;
  /** For a terminal; '' where there is nothing to tell. */
  text(found: Found, music: Music): string;
  /** Plain data. */
  json(found: Found, music: Music): unknown;
  /** What is to be considered, for the sheet. */
  remarks(found: Found, music: Music): readonly InspectionRemark[];
}

/** An inspection that has looked. */
export interface Inspected {
  readonly name: string;
  text(): string;
  json(): unknown;
  remarks(): readonly InspectionRemark[];
}

/** Lets one inspection look; what it found is told when it is asked for. */
export type Look = (music: Music) => Inspected;

/** Hides what an inspection finds, so that inspections of all kinds stand in one list. */
export function lookWith<Found>(inspection: Inspection<Found>): Look {
  return (music) => {
    const found = inspection.look(music);
    return {
      name: inspection.name,
      text: () => inspection.text(found, music),
      json: () => inspection.json(found, music),
      remarks: () => inspection.remarks(found, music),
    };
  };
}
