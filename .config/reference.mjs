// The keys of a format as tables in Markdown, made from its JSON Schema.

/** @returns {{ keys: string, conditions: string }} */
export function referenceOf(schema) {
  const { $defs: defs = {} } = schema;
  const resolved = (node) => {
    if (!node.$ref) return node;
    const name = node.$ref.slice('#/$defs/'.length);
    return { ...defs[name], ...node, $def: name };
  };

  const cell = (text) => String(text).replaceAll('|', '\\|').replaceAll('\n', ' ');

  /** What texts of a form are called. */
  const forms = {
    duration: 'time',
    pitch: 'pitch',
    percentage: 'share',
    name: 'name',
    mark: 'mark',
    marks: 'marks',
  };
  const types = {
    array: 'list',
    object: 'keys',
    integer: 'whole number',
    number: 'number',
    boolean: 'true, false',
    string: 'text',
  };

  /** What a value may be, in a few words. */
  function kindOf(node) {
    if (node.const !== undefined) return `\`${node.const}\``;
    if (node.enum) return node.enum.map((one) => `\`${one}\``).join(', ');
    if (node.$def === 'condition') return 'conditions';
    if (forms[node.$def]) return forms[node.$def];
    const choices = node.oneOf ?? node.anyOf;
    if (choices) return [...new Set(choices.map((one) => kindOf(resolved(one))))].join(' or ');
    return [node.type ?? (node.properties ? 'object' : [])]
      .flat()
      .map((type) => `${types[type] ?? type}${limitsOf(node, type)}`)
      .join(' or ');
  }

  function limitsOf({ minimum, maximum }, type) {
    const isLimited = /integer|number/u.test(type) && minimum !== undefined && maximum !== undefined;
    return isLimited ? ` ${minimum}…${maximum}` : '';
  }

  /** What a node may be besides what it says itself. */
  function variantsOf(node) {
    return [node.then, node.else, ...(node.oneOf ?? []), ...(node.anyOf ?? [])].filter(Boolean).map(resolved);
  }

  /** A row for each key below a node. */
  function rowsBelow(node, path, seen) {
    const items = node.items && resolved(node.items);
    const named = typeof node.additionalProperties === 'object' && resolved(node.additionalProperties);
    return [
      ...Object.entries(node.properties ?? {}).flatMap(([key, child]) =>
        rowsOf(resolved(child), path ? `${path}.${key}` : key, seen),
      ),
      ...(items && isNested(items) ? rowsBelow(items, `${path}[]`, seen) : []),
      ...(named ? rowsBelow(named, `${path}.NAME`, seen) : []),
      ...variantsOf(node)
        .filter(({ $def }) => !$def || !seen.includes($def))
        .flatMap((variant) => rowsBelow(variant, path, variant.$def ? [...seen, variant.$def] : seen)),
    ];
  }

  function isNested(node) {
    return node.properties || node.then || node.oneOf || node.anyOf || node.items;
  }

  function rowsOf(node, path, seen) {
    const standing =
      node.default === undefined ? '' : `\`${JSON.stringify(node.default).replaceAll('"', '')}\``;
    const row = `| \`${path}\` | ${cell(kindOf(node))} | ${standing} | ${cell(node.description ?? '')} |`;
    const isKnown = node.$def && (seen.includes(node.$def) || node.$def === 'condition');
    const below = isKnown ? [] : rowsBelow(node, path, node.$def ? [...seen, node.$def] : seen);
    return [row, ...below.filter((one) => !one.startsWith(`| \`${path}\` |`))];
  }

  /** A key that may stand in a list or alone is told once, as in a list. */
  const unique = (rows) => {
    const byKey = new Map(rows.map((row) => [row.split(' | ')[0], row]));
    return [...byKey].flatMap(([key, row]) =>
      [...byKey.keys()].some(
        (other) => other !== key && other.includes('[]') && other.replaceAll('[]', '') === key,
      )
        ? []
        : [row],
    );
  };
  const keys = [
    '| key | value | unless given | |',
    '|---|---|---|---|',
    ...unique(rowsBelow(schema, '', [])),
  ].join('\n');

  const kinds = Object.entries(defs).filter(([name]) => name.startsWith('when-'));
  const example = ({ examples: [first] = [] }, name) =>
    first === undefined
      ? ''
      : `\`{${name}: ${JSON.stringify(first)
          .replaceAll('"', '')
          .replaceAll(/([:,])/gu, '$1 ')}}\``;
  const conditions = [
    '| condition | holds for | example |',
    '|---|---|---|',
    ...kinds.map(([name, node]) => {
      const key = name.slice('when-'.length);
      return `| \`${key}\` | ${cell(node.description ?? '')} | ${cell(example(node, key))} |`;
    }),
  ].join('\n');
  return { keys, conditions };
}
