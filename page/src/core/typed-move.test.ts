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
  const found = typedMove(text, raw, along);
  expect(found?.map((value) => value + 0)).toEqual(by);
});

it.each(["", "-", "12,", "abc"])("says nothing yet: %s", (text) => expect(typedMove(text, [1, 0], null)).toBeNull());
