import type { EngravedSystem } from './system.js';

/**
 * Engraves an MEI text whose systems are pages of their own.
 *
 * @param from the first system that is drawn, counted from 0
 * @param to the one behind the last; all up to the end if it is absent
 */
export type Engraver = (mei: string, from?: number, to?: number) => readonly EngravedSystem[];
