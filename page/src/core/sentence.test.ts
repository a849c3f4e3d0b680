import { expect, it } from "vitest";
import { meant, sentence } from "./sentence";

it("ends with one stop", () => {
  expect(sentence("there is no measure", "did you mean height?")).toBe("there is no measure; did you mean height?");
  expect(sentence("the key is unknown", "")).toBe("the key is unknown.");
});

it("finds the name that is meant, where one is", () => {
  expect(meant('there is no measure "hieght"', "did you mean height?")).toEqual({ wrong: "hieght", right: "height" });
  expect(meant("this is no number", "write a number")).toBeNull();
});
