import { DomUtils, parseDocument } from 'htmlparser2';
import { beforeAll, describe, expect, it } from 'vitest';
import { type Engraver, makeEngraver, sharedEngraver } from '../../../src/sheet/engrave/index.js';

/** A staff with a line under it, in MEI 5.0 (music-encoding.org): a quarter, a chord, a rest; then a bar's rest. */
const staves = (music: string, n: number) =>
  `<measure n="${n}"><staff n="1"><layer n="1">${music}</layer></staff><staff n="2"><layer n="1"><mSpace/></layer></staff>${n === 1 ? '<harm place="above" staff="1" tstamp="1">B♭ &lt;i&gt;</harm>' : ''}</measure>`;
const mei = `<?xml version="1.0" encoding="UTF-8"?>
<mei xmlns="http://www.music-encoding.org/ns/mei" meiversion="5.0"><meiHead><fileDesc><titleStmt><title>T</title></titleStmt><pubStmt/></fileDesc></meiHead><music><body><mdiv><score>
<scoreDef meter.count="4" meter.unit="4"><staffGrp><staffDef n="1" lines="5" clef.shape="G" clef.line="2"/><staffDef n="2" lines="1"/></staffGrp></scoreDef>
<section>${staves('<note xml:id="a" pname="c" oct="5" dur="4"/><chord dur="4"><note xml:id="b" pname="e" oct="4"/><note xml:id="c" pname="g" oct="5"/></chord><rest xml:id="d" dur="2"/>', 1)}<pb/>${staves('<mRest xml:id="e"/>', 2)}</section>
</score></mdiv></body></music></mei>`;

describe('the engraver', () => {
  let engrave: Engraver;
  beforeAll(async () => {
    engrave = await makeEngraver();
  });

  it('makes a system of each page, with staves from the top and bars from the left', () => {
    const systems = engrave(mei);
    expect(systems).toHaveLength(2);
    for (const { staves: drawn, width, height } of systems) {
      expect(drawn).toHaveLength(2);
      const [staff, lane] = drawn;
      if (!staff || !lane) throw new Error('no staves');
      // Five lines, four spaces of 180 units; one line has no height.
      expect(staff.bottom - staff.top).toBe(720);
      expect(lane.bottom).toBe(lane.top);
      expect(lane.top).toBeGreaterThan(staff.bottom);
      expect(lane.top).toBeLessThanOrEqual(height);
      expect(staff.bars).toHaveLength(1);
      expect(staff.bars[0]?.right).toBeLessThanOrEqual(width);
    }
  });

  it('says where notes and rests stand: later is further right, higher is further up', () => {
    const [first, second] = engrave(mei);
    const [a, b, c, d] = ['a', 'b', 'c', 'd'].map((id) => first?.places.get(id));
    if (!a || !b || !c || !d) throw new Error('a note was not placed');
    expect(a.x < b.x && b.x < d.x).toBe(true);
    expect(b.x).toBe(c.x);
    // From E4 to C5 are five steps, to G5 four more; a step is 90 units.
    expect([b.y - a.y, b.y - c.y]).toEqual([5 * 90, 9 * 90]);
    // The middle line of a treble staff is B4, one step under C5.
    expect((first?.staves[0]?.top ?? 0) + 360 - a.y).toBe(90);
    expect(second?.places.size).toBe(0);
  });

  it('leaves no ids in the markup, and signs that are all at hand', () => {
    for (const { markup, signs } of engrave(mei)) {
      expect(markup).not.toMatch(/ id=/u);
      for (const [, name = ''] of markup.matchAll(/href="#sign-([^"]+)"/gu))
        expect(signs.has(name)).toBe(true);
    }
  });

  it('writes accidentals in texts as plain characters, and texts as texts', () => {
    const [first] = engrave(mei);
    const drawn = parseDocument(first?.markup ?? '', { xmlMode: true });
    expect(DomUtils.textContent(drawn)).toMatch(/B♭[ \u00a0]<i>/u);
    expect(first?.markup).not.toContain('<i>');
  });

  it('draws the same music the same way, every time and in a new engraver', async () => {
    const other = await makeEngraver();
    expect(engrave(mei)).toEqual(engrave(mei));
    expect(other(mei)).toEqual(engrave(mei));
  });

  it('refuses what is no MEI', () => {
    expect(() => engrave('<nothing/>')).toThrow();
  });

  it('is shared until it meets such a thing', async () => {
    const shared = await sharedEngraver();
    expect(await sharedEngraver()).toBe(shared);
    expect(shared(mei)).toEqual(engrave(mei));
    expect(() => shared('<nothing/>')).toThrow();
    const next = await sharedEngraver();
    expect(next).not.toBe(shared);
    expect(next(mei)).toEqual(engrave(mei));
  });
});
