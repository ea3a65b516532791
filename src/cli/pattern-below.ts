/** The pattern of what is in a folder and below it: of the files with some endings (`mid`, or `{yaml,yml}`), or of all. */
export async function patternBelow(folder: string, endings?: string): Promise<string> {
  const { escapePath } = await import('tinyglobby');
  return `${escapePath(folder.replace(/(?<=.)\/+$/u, ''))}/**/*${endings === undefined ? '' : `.${endings}`}`;
}
