import { describe, expect, it } from 'vitest';
import { fitting } from '../../support/decided.js';

const notes = [60, 62, 64, 65].map((pitch, index) => ({
  tick: index * 500,
  end: index * 500 + 100 * (index + 1),
  pitch,
}));

describe('any, all, not, and several keys at once', () => {
  it('any holds where one holds', () => {
    expect(fitting('{any: [{pitch: {to: 60}}, {held: {from: 400ms}}]}', notes)).toEqual([
      true,
      false,
      false,
      true,
    ]);
  });
  it('all holds where every one holds', () => {
    expect(fitting('{all: [{pitch: {from: 62}}, {held: {below: 400ms}}]}', notes)).toEqual([
      false,
      true,
      true,
      false,
    ]);
  });
  it('not turns a condition round', () => {
    expect(fitting('{not: {pitch: {from: 62, to: 64}}}', notes)).toEqual([true, false, false, true]);
  });
  it('keys beside each other must all hold', () => {
    expect(fitting('{pitch: {from: 62}, held: {below: 400ms}}', notes)).toEqual([false, true, true, false]);
  });
  it('may be nested', () => {
    expect(
      fitting('{not: {any: [{pitch: {to: 60}}, {all: [{pitch: {from: 65}}, {held: {from: 1ms}}]}]}}', notes),
    ).toEqual([false, true, true, false]);
  });
});
