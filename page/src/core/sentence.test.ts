import { expect, it } from "vitest";
import { meant, mend, sentence } from "./sentence";

it("ends with one stop", () => {
  expect(sentence("there is no measure", "did you mean height?")).toBe("there is no measure; did you mean height?");
  expect(sentence("the key is unknown", "")).toBe("the key is unknown.");
});

it("finds the name that is meant, where one is", () => {
  expect(meant('there is no measure "hieght"', "did you mean height?")).toEqual({ wrong: "hieght", right: "height" });
  expect(meant("this is no number", "write a number")).toBeNull();
});

const told = (wrong: string, right: string, column: number, end_column: number): Parameters<typeof mend>[1] => ({
  says: `there is no measure "${wrong}"`, remedy: `did you mean ${right}?`, column, end_column,
});

it("puts right the word that is wrong, not the key that begins like it", () => {
  expect(mend('depth = "depth - dept"', told("dept", "depth", 8, 22))).toEqual({ from: 17, to: 21, name: "depth" });
  expect(mend("coatz = 1", told("coatz", "coats", 8, 9))).toEqual({ from: 0, to: 5, name: "coats" });
});

it("puts nothing right where it is not sure what is wrong", () => {
  expect(mend('dept = "dept / 2"', told("dept", "depth", 7, 17))).toBeNull();
  expect(mend("thickness = 24", told("thick", "thin", 0, 5))).toBeNull();
});
