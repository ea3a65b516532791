import {
  type Diagnostic,
  type DiagnosticCode,
  diagnostic,
  nearest,
  type Place,
  quoted,
} from '../diagnostics/index.js';
import type { ReadYaml } from './parse.js';
import { treesTo } from './places.js';
import { formatCount, formatLimit, formatPath, formatTypes, formatValue } from './say.js';
import type { SchemaError } from './schema-error.js';
import type { Tree } from './tree.js';

/** What is meant where a text does not have its form, by the name of the schema's definition. */
export interface TextForm {
  readonly code: DiagnosticCode;
  readonly is: string;
  readonly hint: string;
}

export interface SchemaTexts {
  /** By the name of the definition. */
  readonly forms: Readonly<Record<string, TextForm>>;
  /** What is right where exactly one of several things must be given. */
  readonly choice: string;
  /** What is to be done where the file itself lacks a key, by the key; "it is needed" for others. */
  readonly needed?: Readonly<Record<string, string>>;
  /** The names of definitions, by their pattern. */
  readonly names: Readonly<Record<string, string>>;
}

/** What a schema finds wrong with a document. */
export interface Judgement {
  readonly diagnostics: readonly Diagnostic[];
  /** The values that have an error in them or are one. What is not among them is as the schema wants it. */
  readonly faulty: ReadonlySet<Tree>;
}

/** An error, what it is about, and what else its diagnostic is made from. */
interface Finding {
  readonly error: SchemaError;
  readonly yaml: ReadYaml;
  readonly texts: SchemaTexts;
  readonly tree: Tree;
  readonly where: string;
  readonly at: Place;
}

/** Keywords that only say that something inside them failed; what failed is reported itself. */
const silent: ReadonlySet<string> = new Set(['if', 'anyOf', 'allOf', 'propertyNames']);

/** Turns the errors of a validator into diagnostics at their places, each problem once. */
export function judge(yaml: ReadYaml, errors: readonly SchemaError[], texts: SchemaTexts): Judgement {
  const isEcho = echoes(errors);
  const faulty = new Set<Tree>();
  const told = new Map<string, Diagnostic>();
  for (const error of errors) {
    const steps = stepsOf(error.instancePath);
    const trees = treesTo(yaml.root, steps);
    for (const tree of trees) faulty.add(tree);
    if (isEcho(error)) continue;
    const tree = trees.at(-1) ?? yaml.root;
    const at = yaml.placeAt(tree.offset);
    const diagnostic = diagnosticOf({ error, yaml, texts, tree, where: formatPath(trees, steps), at });
    // A message is wrong once, however many ways there are to say so.
    const what = diagnostic.code === 'bad-switch' ? '' : diagnostic.message;
    const key = `${tree.offset} ${diagnostic.code} ${what}`;
    if (!told.has(key)) told.set(key, diagnostic);
  }
  return { diagnostics: [...told.values()], faulty };
}

/** Errors that say again what another says: about the branches of a choice, and about a value that fits none of them. */
function echoes(errors: readonly SchemaError[]): (error: SchemaError) => boolean {
  const choices = errors.filter(({ keyword }) => keyword === 'oneOf');
  const branches = [...new Set(choices.map(({ schemaPath }) => `${schemaPath}/`))];
  const values = new Set(choices.map(({ instancePath }) => instancePath));
  return ({ keyword, schemaPath, instancePath }) =>
    silent.has(keyword) ||
    branches.some((branch) => schemaPath.startsWith(branch)) ||
    (values.has(instancePath) && keyword !== 'oneOf' && keyword !== 'additionalProperties');
}

function diagnosticOf(finding: Finding): Diagnostic {
  const { error, tree, where, at } = finding;
  const { params } = error;
  switch (error.keyword) {
    case 'additionalProperties':
      return unknownKey(finding, String(params.additionalProperty));
    case 'required':
      return make(
        'missing-key',
        at,
        `${where} has no ${quoted(String(params.missingProperty))}`,
        (where === 'the file' ? finding.texts.needed?.[String(params.missingProperty)] : undefined) ??
          'it is needed',
      );
    case 'dependentRequired':
      return make(
        'bad-switch',
        at,
        `${where} has ${quoted(String(params.property))} without ${quoted(String(params.missingProperty))}`,
        'the two go together',
      );
    case 'oneOf':
      return make('bad-switch', at, `${where} is ${formatValue(tree.data)}`, finding.texts.choice);
    case 'enum':
      return unknownValue(finding, params.allowedValues);
    case 'const':
      return unknownValue(finding, [params.allowedValue]);
    case 'pattern':
    case 'type':
      return wrongForm(finding);
    case 'minimum':
    case 'maximum':
    case 'exclusiveMinimum':
    case 'exclusiveMaximum':
      return formOf(error, finding.texts)
        ? wrongForm(finding)
        : make(
            'out-of-range',
            at,
            `${where} is ${formatValue(tree.data)}`,
            `it must be ${formatLimit(params)}`,
          );
    default:
      return amiss(finding);
  }
}

function unknownKey({ error, yaml, tree, where }: Finding, key: string): Diagnostic {
  const keys = Object.keys(error.parentSchema.properties ?? {});
  const near = nearest(key, keys);
  const hint = near === undefined ? `keys here are ${keys.join(', ')}` : `did you mean "${near}"?`;
  const place = yaml.placeAt(tree.keys.get(key) ?? tree.offset);
  return make('unknown-key', place, `${quoted(key)} is no key of ${where}`, hint);
}

function unknownValue({ tree, where, at }: Finding, allowed: unknown): Diagnostic {
  const names = Array.isArray(allowed) ? allowed.map(String) : [];
  const near = typeof tree.data === 'string' ? nearest(tree.data, names) : undefined;
  const hint = near === undefined ? `it must be ${names.join(', ')}` : `did you mean "${near}"?`;
  return make('unknown-value', at, `${where} is ${formatValue(tree.data)}`, hint);
}

function wrongForm({ error, yaml, texts, tree, where, at }: Finding): Diagnostic {
  const form = formOf(error, texts);
  const { propertyName: name } = error;
  const place = name === undefined ? at : yaml.placeAt(tree.keys.get(name) ?? tree.offset);
  const found = name === undefined ? `${where} is ${formatValue(tree.data)}` : `${quoted(name)} in ${where}`;
  if (form) return make(form.code, place, `${found}, which is no ${form.is}`, form.hint);
  return make('wrong-type', place, found, `it must be ${formatTypes(error.params.type)}`);
}

/** The form that the definition stands for which a value does not fit. */
function formOf({ parentSchema }: SchemaError, { forms, names }: SchemaTexts): TextForm | undefined {
  const { pattern } = parentSchema;
  const name = typeof pattern === 'string' && Object.hasOwn(names, pattern) ? names[pattern] : undefined;
  return name !== undefined && Object.hasOwn(forms, name) ? forms[name] : undefined;
}

/** Too little or too much in a list, a mapping or a text; and whatever else a schema may ask for. */
function amiss({ error, tree, where, at }: Finding): Diagnostic {
  const count = formatCount(error);
  if (count === undefined)
    return make('wrong-type', at, `${where} is ${formatValue(tree.data)}`, 'the schema has no place for it');
  const much = error.keyword.startsWith('min') ? 'too little' : 'too much';
  return make('out-of-range', at, `${where} has ${much} in it`, `it must have ${count}`);
}

function make(code: DiagnosticCode, place: Place, message: string, hint: string): Diagnostic {
  return diagnostic(code, place, message, hint);
}

/** The steps of a JSON pointer (RFC 6901). */
function stepsOf(pointer: string): readonly string[] {
  return pointer
    .split('/')
    .slice(1)
    .map((step) => step.replace(/~1/gu, '/').replace(/~0/gu, '~'));
}
