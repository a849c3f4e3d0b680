import { describe, expect, it } from "vitest";
import { difference } from "./editor";
import { tableAt, tableOf, tables } from "./places";

const TEXT = '[measures]\nwidth = 2600\n\n[[board]]\nname = "a"\n\n[[board]] # the second\nname = "b"\nline = [[0, 0],\n [1, 1]]\n[wall]\n';

describe("tables of the text", () => {
  it("counts headers of one name", () => {
    expect(tables(TEXT).map(({ name, index, first, last }) => [name, index, first, last])).toEqual([
      ["measures", 0, 1, 3], ["board", 0, 4, 6], ["board", 1, 7, 10], ["wall", 0, 11, 12],
    ]);
  });

  it("finds the table of a path, and of a line", () => {
    expect(tableOf(tables(TEXT), ["board", 1, "line", 0, 0])?.first).toBe(7);
    expect(tableAt(tables(TEXT), 9)?.index).toBe(1);
    expect(tableAt(tables("# only a comment"), 1)).toBeUndefined();
  });
});

describe("the one stretch in which two texts differ", () => {
  it.each([
    ["width = 2600", "width = 2700"],
    ["aaa", "aaaa"],
    ["abcabc", "abc"],
    ["", "new"],
    ["same", "same"],
  ])("turns %j into %j", (before, after) => {
    const { from, to, insert } = difference(before, after);
    expect(before.slice(0, from) + insert + before.slice(to)).toBe(after);
  });
});
