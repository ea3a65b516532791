import fc from 'fast-check';

const surrogates = { first: 0xd800, count: 0x800 };

/** Any character of Unicode. fast-check's own `binary` is the same, and takes a second to be made. */
const character = fc
  .nat(0x10ffff - surrogates.count)
  .map((code) => String.fromCodePoint(code < surrogates.first ? code : code + surrogates.count));

/** Any text at all; now and then one that programs in JavaScript stumble over, as `fc.string` has them. */
export function anyText(maxLength: number): fc.Arbitrary<string> {
  return fc.oneof(
    { weight: 9, arbitrary: fc.string({ unit: character, maxLength }) },
    { weight: 1, arbitrary: fc.string({ maxLength }) },
  );
}
