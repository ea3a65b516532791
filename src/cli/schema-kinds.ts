/** The files that have a schema. */
export const schemaKinds = ['map', 'cue'] as const;

export type SchemaKind = (typeof schemaKinds)[number];
