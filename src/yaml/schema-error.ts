/** An error as ajv's compiled validators report it. */
export interface SchemaError {
  readonly instancePath: string;
  readonly schemaPath: string;
  readonly keyword: string;
  readonly params: Readonly<Record<string, unknown>>;
  /** The schema that the value does not fit. */
  readonly parentSchema: Readonly<Record<string, unknown>>;
  /** The key, where it is a key that does not fit. */
  readonly propertyName?: string;
}
