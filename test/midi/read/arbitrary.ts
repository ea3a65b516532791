import fc from 'fast-check';
import { midi, quantity } from './bytes.js';

const dataByte = fc.nat(127);
const byte = fc.nat(255);

const delta = fc.oneof(
  { weight: 5, arbitrary: fc.nat(127) },
  { weight: 5, arbitrary: fc.nat(2000) },
  { weight: 1, arbitrary: fc.nat(0x0fffffff) },
);

/** A quantity; now and then longer than it must be, which the standard does not forbid. */
const spelled = (value: fc.Arbitrary<number>) =>
  fc
    .tuple(
      value,
      fc.oneof(
        { weight: 9, arbitrary: fc.constant(1) },
        { weight: 1, arbitrary: fc.integer({ min: 1, max: 4 }) },
      ),
    )
    .map(([number, digits]) => quantity(number, digits));

const withLength = (data: fc.Arbitrary<number[]>) =>
  data.chain((bytes) => spelled(fc.constant(bytes.length)).map((length) => [...length, ...bytes]));

const channelMessage = fc
  .tuple(fc.integer({ min: 0x80, max: 0xef }), dataByte, dataByte)
  .map(([status, first, second]) =>
    status >= 0xc0 && status < 0xe0 ? [status, first] : [status, first, second],
  );

/** Types that the parser knows, at the lengths that it knows and at others; and types that it does not know. */
const metaType = fc.oneof(
  fc.constantFrom(0, 1, 2, 3, 4, 5, 6, 7, 0x20, 0x21, 0x2f, 0x51, 0x54, 0x58, 0x59, 0x7f),
  fc.nat(127),
);
const metaEvent = fc
  .tuple(metaType, withLength(fc.array(byte, { maxLength: 8 })))
  .map(([type, data]) => [0xff, type, ...data]);

const exclusive = fc
  .tuple(fc.constantFrom(0xf0, 0xf7), withLength(fc.array(byte, { maxLength: 300 })))
  .map(([status, data]) => [status, ...data]);

/** Meta events as general readers expect them: of the lengths and values that the standard gives. */
const plainMeta = fc
  .oneof(
    fc.tuple(fc.constantFrom(1, 2, 3, 4, 5, 6, 7, 0x60, 0x7f), fc.array(byte, { maxLength: 8 })),
    fc.tuple(fc.constantFrom(0x00, 0x59), fc.array(byte, { minLength: 2, maxLength: 2 })),
    fc.tuple(fc.constantFrom(0x20, 0x21), fc.array(byte, { minLength: 1, maxLength: 1 })),
    fc.tuple(fc.constant(0x2f), fc.constant<number[]>([])),
    fc.tuple(fc.constant(0x51), fc.array(byte, { minLength: 3, maxLength: 3 })),
    fc.tuple(fc.constant(0x54), fc.array(dataByte, { minLength: 5, maxLength: 5 })),
    fc.tuple(
      fc.constant(0x58),
      fc.tuple(byte, fc.nat(10), byte, fc.integer({ min: 1, max: 255 })).map((data): number[] => data),
    ),
  )
  .map(([type, data]) => [0xff, type, data.length, ...data]);

const eventWith = (meta: fc.Arbitrary<number[]>) =>
  fc.oneof(
    { weight: 6, arbitrary: channelMessage },
    { weight: 3, arbitrary: meta },
    { weight: 1, arbitrary: exclusive },
  );

/** The body of a track that is in order; with running status where the status allows it and chance wants it. */
const bodyOf = (event: fc.Arbitrary<number[]>): fc.Arbitrary<number[]> =>
  fc
    .array(fc.record({ delta: spelled(delta), event, run: fc.boolean(), same: fc.boolean() }), {
      maxLength: 60,
    })
    .map((events) => {
      let status = 0;
      return events.flatMap(({ delta, event, run, same }) => {
        const [first = 0, ...parameters] = event;
        if (first >= 0xf0) return [...delta, ...event];
        // Often the same message again, or there would be little running status.
        const isShort = status >= 0xc0 && status < 0xe0;
        const repeated = same && status > 0 && isShort === (parameters.length === 1) ? status : first;
        const isRunning = run && repeated === status;
        status = repeated;
        return [...delta, ...(isRunning ? [] : [repeated]), ...parameters];
      });
    });

export const trackBody = bodyOf(eventWith(metaEvent));

const fileOf = (body: fc.Arbitrary<number[]>): fc.Arbitrary<Uint8Array> =>
  fc
    .record({
      bodies: fc.array(body, { minLength: 1, maxLength: 4 }),
      format: fc.constantFrom(0, 1, 2),
      division: fc.oneof(
        fc.integer({ min: 1, max: 0x7fff }),
        fc.constantFrom(0xe728, 0xe250, 0xe864, 0xe304),
      ),
    })
    .map(({ bodies, format, division }) => midi(bodies, { format, division }));

/** A file that is in order. */
export const midiFile = fileOf(trackBody);

/** A file that general readers can read, too. */
export const plainFile = fileOf(bodyOf(eventWith(plainMeta)));
