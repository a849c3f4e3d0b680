import { describe, expect, it } from "vitest";
import { completionAt } from "./completing";
import { difference } from "./editor";
import { boardNames, tableAt, tableOf, tables } from "./places";

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

describe("what may be meant where a place is typed", () => {
  const OFFERED = { places: { left: "x", right: "x", top: "y", under: "y", middle: "", thickness: "" }, names: ["left side", "right side", "Lady's"] } as const;
  const at = (line: string): string[] => {
    const [before = "", after = ""] = line.split("|");
    return (completionAt(before, after, OFFERED)?.all ?? []).map(({ insert }) => insert);
  };

  it.each([
    [`line = [["le|"`, ["left('"]],
    [`line = [['le|'`, ['left("']],
    [`line = [["width - thi|", 0]`, ["thickness('"]],
    [`line = [[0, "to|"`, ["top('"]],
    [`line = [[0, "le|"`, []],
    [`line = [["be|"`, ["between("]],
    [`line = [[le|, 0]`, []],
    [`name = "le|"`, []],
    [`# [["le|"`, []],
    [`line = [["l|"`, []],
  ])("of %s", (line, found) => expect(at(line)).toEqual(found));

  it("names boards, closing what was opened once", () => {
    expect(at(`line = [["left('si|"`)).toEqual(["left side')", "right side')"]);
    expect(at(`line = [["between(right('left|'), 5, 1/2)"`)).toEqual(["left side"]);
    expect(at(`line = [['left("lad|'`)).toEqual([]);
  });

  it("calls a board by the text's own name, of a row each", () => {
    const boards = [
      { name: "a (1 of 2)", path: ["board", 0], row: false, frame: "" }, { name: "a (2 of 2)", path: ["board", 0], row: false, frame: "" },
      { name: "b 1", path: ["board", 1], row: true, frame: "" }, { name: "b 2", path: ["board", 1], row: true, frame: "" },
    ];
    expect(boardNames(TEXT, boards)).toEqual(["a", "b 1", "b 2"]);
  });
});
