/** Whether a file that a command was given is a cue, by its name. */
export function isCueFile(input: string): boolean {
  return /\.ya?ml$/iu.test(input);
}
