import type { DiagnosticCode } from '../../diagnose/codes.js';
import { nearest } from '../../diagnose/nearest.js';
import { quoted } from '../../diagnose/quote.js';
import type { Diagnostic, Place } from '../../model/diagnostic.js';
import type { ReadYaml } from './parse.js';
import { type Path, placeOf, placeOfKey } from './places.js';

/** An error as ajv's compiled validators report it. */
export interface SchemaError {
  readonly instancePath: string;
  readonly schemaPath: string;
  readonly keyword: string;
  readonly params: Readonly<Record<string, unknown>>;
  /** The schema that the value does not fit. */
  readonly parentSchema: Readonly<Record<string, unknown>>;
}

/** What is meant where a text does not have its form, by the name of the schema's definition. */
export interface TextForm {
  readonly code: DiagnosticCode;
  readonly is: string;
  readonly hint: string;
}

export interface SchemaTexts {
  /** By the name of the definition. */
  readonly forms: Readonly<Record<string, TextForm>>;
  /** The names of definitions, by their pattern. */
  readonly names: Readonly<Record<string, string>>;
}

/** Keywords that only say that something inside them failed; what failed is reported itself. */
const silent = new Set(['if', 'anyOf', 'allOf', 'propertyNames']);

/** Turns the errors of a validator into diagnostics at their places, each problem once. */
export function schemaDiagnostics(
  yaml: ReadYaml,
  errors: readonly SchemaError[],
  texts: SchemaTexts,
): readonly Diagnostic[] {
  const ofChoices = errors.filter(({ keyword }) => keyword === 'oneOf').map(({ schemaPath }) => schemaPath);
  const told = errors.filter(
    ({ keyword, schemaPath }) =>
      !silent.has(keyword) && !ofChoices.some((choice) => schemaPath.startsWith(`${choice}/`)),
  );
  const seen = new Set<string>();
  return told
    .map((error) => diagnosticOf(yaml, error, texts))
    .filter((diagnostic) => {
      const key = JSON.stringify([diagnostic.code, diagnostic.place, diagnostic.message]);
      return !seen.has(key) && seen.add(key);
    });
}

function diagnosticOf(yaml: ReadYaml, error: SchemaError, texts: SchemaTexts): Diagnostic {
  const path = pathOf(error.instancePath);
  const value = valueAt(yaml.root.data, path);
  const where = sayPath(path);
  const at = placeOf(yaml, path);
  const { params } = error;
  switch (error.keyword) {
    case 'additionalProperties':
    case 'unevaluatedProperties': {
      const key = String(params.additionalProperty ?? params.unevaluatedProperty);
      const keys = Object.keys(error.parentSchema.properties ?? {});
      const near = nearest(key, keys);
      const hint = near === undefined ? `keys here are ${keys.join(', ')}` : `did you mean "${near}"?`;
      return make('unknown-key', placeOfKey(yaml, path, key), `${quoted(key)} is no key of ${where}`, hint);
    }
    case 'required':
      return make(
        'missing-key',
        at,
        `${where} has no ${quoted(String(params.missingProperty))}`,
        'it is needed',
      );
    case 'dependentRequired': {
      const { property, missingProperty } = params;
      return make(
        'bad-switch',
        at,
        `${where} has ${quoted(String(property))} without ${quoted(String(missingProperty))}`,
        'the two go together',
      );
    }
    case 'oneOf':
      return make(
        'bad-switch',
        at,
        `${where} is ${sayValue(value)}`,
        'give exactly one of note, controller with value, program and channel; several messages make a list',
      );
    case 'enum':
      return unknownValue(at, where, value, params.allowedValues);
    case 'const':
      return unknownValue(at, where, value, [params.allowedValue]);
    case 'pattern':
      return formProblem(yaml, error, texts, path, value);
    case 'minimum':
    case 'maximum':
      if (formOf(error, texts)) return formProblem(yaml, error, texts, path, value);
      return make('out-of-range', at, `${where} is ${sayValue(value)}`, `it must be ${sayLimit(params)}`);
    case 'minItems':
    case 'maxItems':
    case 'minProperties':
    case 'maxProperties':
    case 'minLength':
    case 'maxLength':
      return make(
        'out-of-range',
        at,
        `${where} has ${error.keyword.startsWith('min') ? 'too little' : 'too much'} in it`,
        `it must have ${sayCount(error)}`,
      );
    case 'type':
      return typeProblem(error, texts, at, where, value);
    default:
      return make(
        'wrong-type',
        at,
        `${where} is ${sayValue(value)}, which is not allowed here`,
        'see the key in the schema',
      );
  }
}

function formProblem(
  yaml: ReadYaml,
  error: SchemaError,
  texts: SchemaTexts,
  path: Path,
  value: unknown,
): Diagnostic {
  const form = formOf(error, texts);
  const { propertyName } = error as { propertyName?: unknown };
  const name = typeof propertyName === 'string' ? propertyName : undefined;
  const place = name === undefined ? placeOf(yaml, path) : placeOfKey(yaml, path, name);
  const found =
    name === undefined ? `${sayPath(path)} is ${sayValue(value)}` : `${quoted(name)} in ${sayPath(path)}`;
  return form
    ? make(form.code, place, `${found}, which is no ${form.is}`, form.hint)
    : make('wrong-type', place, `${found}, which does not have the right form`, 'see the key in the schema');
}

function typeProblem(
  error: SchemaError,
  texts: SchemaTexts,
  at: Place,
  where: string,
  value: unknown,
): Diagnostic {
  const form = formOf(error, texts);
  if (form) return make(form.code, at, `${where} is ${sayValue(value)}, which is no ${form.is}`, form.hint);
  const types = [error.params.type].flat().map(String);
  const words: Readonly<Record<string, string>> = {
    object: 'a mapping of keys',
    array: 'a list',
    string: 'a text',
    integer: 'a whole number',
    number: 'a number',
    boolean: 'true or false',
  };
  return make(
    'wrong-type',
    at,
    `${where} is ${sayValue(value)}`,
    `it must be ${types.map((type) => words[type] ?? type).join(' or ')}`,
  );
}

/** The form that the definition stands for which a value does not fit. */
function formOf({ parentSchema }: SchemaError, { forms, names }: SchemaTexts): TextForm | undefined {
  const { pattern } = parentSchema;
  const name = typeof pattern === 'string' && Object.hasOwn(names, pattern) ? names[pattern] : undefined;
  return name !== undefined && Object.hasOwn(forms, name) ? forms[name] : undefined;
}

function unknownValue(at: Place, where: string, value: unknown, allowed: unknown): Diagnostic {
  const names = Array.isArray(allowed) ? allowed.map(String) : [];
  const near = typeof value === 'string' ? nearest(value, names) : undefined;
  return make(
    'unknown-value',
    at,
    `${where} is ${sayValue(value)}`,
    near === undefined ? `it must be ${names.join(', ')}` : `did you mean "${near}"?`,
  );
}

function make(code: DiagnosticCode, place: Place, message: string, hint: string): Diagnostic {
  return { code, severity: 'error', place, message, hint };
}

function pathOf(pointer: string): Path {
  return pointer
    .split('/')
    .slice(1)
    .map((step) => step.replace(/~1/gu, '/').replace(/~0/gu, '~'));
}

function valueAt(data: unknown, path: Path): unknown {
  return path.reduce<unknown>((value, step) => {
    if (Array.isArray(value)) return value[Number(step)] as unknown;
    if (typeof value !== 'object' || value === null || !Object.hasOwn(value, step)) return undefined;
    return (value as Readonly<Record<string, unknown>>)[step];
  }, data);
}

/** `switching.lead`, `rules, item 3, when.held`; `the map` for the whole. */
function sayPath(path: Path): string {
  if (path.length === 0) return 'the file';
  const said = path
    .map((step) => (/^\d+$/u.test(String(step)) ? `, item ${Number(step) + 1}, ` : `.${step}`))
    .join('');
  return said.replace(/^\./u, '').replace(/, \./gu, ', ').replace(/, $/u, '');
}

function sayValue(value: unknown): string {
  if (typeof value === 'string') return quoted(value);
  if (value === null || value === undefined) return 'empty';
  if (Array.isArray(value)) return 'a list';
  return typeof value === 'object'
    ? `a mapping with ${Object.keys(value).slice(0, 6).map(quoted).join(', ') || 'nothing'}`
    : String(value);
}

function sayLimit(params: Readonly<Record<string, unknown>>): string {
  const word =
    String(params.comparison) === '>='
      ? 'at least'
      : String(params.comparison) === '<='
        ? 'at most'
        : String(params.comparison);
  return `${word} ${String(params.limit)}`;
}

function sayCount({ keyword, params }: SchemaError): string {
  const what = keyword.endsWith('Length') ? 'characters' : keyword.endsWith('Items') ? 'items' : 'keys';
  return `${keyword.startsWith('min') ? 'at least' : 'at most'} ${String(params.limit)} ${what}`;
}
