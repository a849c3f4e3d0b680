import { describe, expect, it } from "vitest";
import { overlaps } from "../core/rect";
import type { BoardShown } from "../core/wire";
import { labels } from "./names";
import { besideMark, crossesBoard, widest } from "./placing";
import { figures } from "./running";

const board = (name: string, line: BoardShown["line"]): BoardShown => ({
  name, line, timber: "oak", outline: [], face: [], lines: [], thickness: 24, depth: 300, back: 0, front: 300, length: 1000,
  rake: 0, lies: "across", frame: "", row: false, index: 1, mark: "A", path: ["board", 0], label_at: [0, 0], foot: line[0], head: line[1], along: [],
});
const view = { scale: 0.3, x: 0, y: 600 };

describe("where a mark stands", () => {
  it("takes the wider angle at a raking crossing, not the flat side of a meeting", () => {
    // Level board both ways, a board leaning right: up at -82, down at 98; the widest corner is left above or right below.
    const { half } = widest([0, 180, -82, 98]);
    expect(half).toBeCloseTo(49, 6);
    expect(widest([0, 180, 90]).half).toBeCloseTo(45, 6);
  });
});

describe("where names stand", () => {
  it("never on each other", () => {
    const many = Array.from({ length: 12 }, (_, index) => board(`shelf number ${index}`, [[0, index * 60], [1000, index * 60]]));
    const placed = labels(many, many, ({ name }) => name, view, []).map((label) => {
      const wide = label.name.length * 6.6;
      return { left: label.x - wide / 2, right: label.x + wide / 2, top: label.y - 12, bottom: label.y + 4 };
    });
    placed.forEach((one, index) => placed.slice(index + 1).forEach((other) => expect(overlaps(one, other)).toBe(false)));
  });

  it("knows when a slanting board runs through a place", () => {
    const slanting = board("raking", [[0, 0], [1000, 1000]]);
    expect(crossesBoard({ left: 140, right: 160, top: 440, bottom: 460 }, slanting, view)).toBe(true);
    expect(crossesBoard({ left: 240, right: 260, top: 540, bottom: 560 }, slanting, view)).toBe(false);
  });
});

describe("a running dimension", () => {
  const dimension = (value: number, of: string) => ({ axis: "x" as const, value, of, board: of, path: null });

  const all = [dimension(100, "a"), dimension(110, "b"), dimension(120, "d"), dimension(400, "c")];
  const rows = (chosen: string): (number | null)[] => figures(all, (value) => value, () => 40, new Set([chosen]), 2).map(({ row }) => row);

  it("has what would touch another a row farther out, and counts what has no row", () => expect(rows("c")).toEqual([0, 1, null, 0]));

  it("moves no figure when a board is chosen, and has a row for that board's own", () => {
    expect(rows("b")).toEqual([0, 1, null, 0]);
    expect(rows("d")).toEqual([0, 1, 2, 0]);
  });
});

describe("what a light says of a mark", () => {
  const at = { x: 60, y: 300 };
  const wide = "62 %".length * 6.6;

  it("stands right of it, and left where a board runs there", () => {
    expect(besideMark(at, "62 %", 8, [], view, []).at).toEqual({ x: 70, y: 305, anchor: "start" });
    const upright = board("upright", [[(70 + wide / 2) / 0.3, 0], [(70 + wide / 2) / 0.3, 2000]]);
    expect(besideMark(at, "62 %", 8, [upright], view, []).at).toEqual({ x: 50, y: 305, anchor: "end" });
  });

  it("stands above it where both sides are taken", () => {
    const sides = [{ left: 0, right: 55, top: 294, bottom: 306 }, { left: 65, right: 140, top: 294, bottom: 306 }];
    expect(besideMark(at, "62 %", 8, [], view, sides).at.anchor).toBe("middle");
  });
});
