/** Three notes of 48, 68 and 34 px, the second of three lines. */
import { expect, it } from "vitest";
import { nearestStart, wholeRows, type Row } from "./whole";

const ROWS: readonly Row[] = [
  { top: 0, bottom: 48, lines: [24, 44], counts: true },
  { top: 48, bottom: 116, lines: [72, 92, 112], counts: true },
  { top: 116, bottom: 150, lines: [141], counts: true },
];

it("is cut between rows, the rest counted", () => {
  expect(wholeRows(ROWS, 0, 100)).toEqual({ end: 48, more: 2, next: 48 });
  expect(wholeRows(ROWS, 48, 100)).toEqual({ end: 116, more: 2, next: 116 });
  expect(wholeRows(ROWS, 116, 100)).toEqual({ end: 150, more: 2, next: 0 });
});

it("counts nothing where all has room", () => {
  expect(wholeRows(ROWS, 0, 150)).toEqual({ end: 150, more: 0, next: 0 });
});

it("cuts a row higher than the room after a whole line, and goes on from there", () => {
  expect(wholeRows(ROWS, 48, 50)).toEqual({ end: 92, more: 3, next: 92 });
  expect(wholeRows(ROWS, 92, 50)).toEqual({ end: 116, more: 3, next: 116 });
});

it("shows nothing rather than a part of a line", () => {
  expect(wholeRows(ROWS, 0, 10)).toEqual({ end: 0, more: 3, next: 0 });
});

it("settles at the beginning of a row", () => {
  expect(nearestStart(ROWS, 40, 100)).toBe(48);
  expect(nearestStart(ROWS, 75, 50)).toBe(72);
  expect(nearestStart(ROWS, 500, 100)).toBe(116);
});
