import { expect, it } from "vitest";
import { typedMove } from "./typed-move";

it.each([
  ["120", [3, 1], null, [120, 0]],
  ["120", [-3, 1], null, [-120, 0]],
  ["12.5", [0.2, -4], null, [0, -12.5]],
  ["30, -40", [1, 1], null, [30, -40]],
  ["-5", [3, 1], null, [-5, 0]],
  ["10", [0, -2], [0, 1], [0, -10]],
] as const)("a move typed as %s after a pull of %s", (text, raw, along, by) => {
  const found = typedMove(text, raw, along, "mm");
  expect(found?.map((value) => value + 0)).toEqual(by);
});

it.each(["", "-", "12,", "abc"])("says nothing yet: %s", (text) => expect(typedMove(text, [1, 0], null, "mm")).toBeNull());

it.each([
  ["1/2", [12.7, 0]],
  ["2 1/4", [57.15, 0]],
  ["1 1/2, -3/4", [38.1, -19.05]],
  [".5", [12.7, 0]],
] as const)("in inches %s", (text, by) => {
  typedMove(text, [3, 1], null, "in")?.forEach((value, index) => expect(value).toBeCloseTo(by[index] ?? NaN, 9));
});

it("says nothing of a fraction in mm, nor of one without its lower figure", () => {
  expect(typedMove("1/2", [1, 0], null, "mm")).toBeNull();
  expect(typedMove("1/", [1, 0], null, "in")).toBeNull();
});
