/** What has a schema: the files that are read, and the JSON that is printed. */
export const schemaKinds = ['map', 'cue', 'report'] as const;

export type SchemaKind = (typeof schemaKinds)[number];
