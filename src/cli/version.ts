/** The program's version. */
export const version = '0.1.0';
