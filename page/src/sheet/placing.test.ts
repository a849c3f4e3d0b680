import { describe, expect, it } from "vitest";
import type { BoardShown } from "../core/wire";
import { crossesBoard, labels, overlaps, widest } from "./placing";
import { figures } from "./running";

const board = (name: string, line: BoardShown["line"]): BoardShown => ({
  name, line, timber: "oak", outline: [], face: [], lines: [], thickness: 24, depth: 300, back: 0, front: 300, length: 1000,
  rake: 0, lies: "across", frame: "", row: false, index: 1, mark: "A", path: ["board", 0], label_at: [0, 0],
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
    const placed = labels(many, view, []).map((label) => {
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

  it("says the chosen board's figure first, and none that would touch it", () => {
    const found = figures([dimension(100, "a"), dimension(110, "b"), dimension(400, "c")], (value) => value, 40, new Set(["b"]));
    expect(found.map((figure) => [figure.value, figure.said])).toEqual([[100, false], [110, true], [400, true]]);
  });
});
