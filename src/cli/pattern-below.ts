/** The pattern of the files with some endings (`mid`, or `{yaml,yml}`) in a folder and below it. */
export async function patternBelow(folder: string, endings: string): Promise<string> {
  const { escapePath } = await import('tinyglobby');
  return `${escapePath(folder.replace(/(?<=.)\/+$/u, ''))}/**/*.${endings}`;
}
