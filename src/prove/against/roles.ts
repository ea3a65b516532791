/**
 * What an event of a compiled track is: music that was in the input, a switch of the map, a copy of a controller, bend
 * or pressure for another channel, or something that should not be there.
 */
export type Role = 'music' | 'switch' | 'copy' | 'alien';
