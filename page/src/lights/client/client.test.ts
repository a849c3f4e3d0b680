import { describe, expect, it } from "vitest";
import { roomOf } from "./room";
import { fileNamed } from "./showing.svelte";

const line = (...points: [number, number][]) => ({ kind: "line" as const, pen: "wall", closed: false, points });

function room(lines: ReturnType<typeof line>[], high: number | null, floor = true) {
  const wall = { wide: null, high, studs: null, every: null, floor, thick: 20, deep: 300 };
  const extent: [number, number, number, number] = [0, 0, 2600, 2000];
  const drawing = { extent, wall: lines, boards: [], joints: [], dimensions: [], side: [] };
  return roomOf({ drawing, wall });
}

describe("the room of the client's view", () => {
  it("ends only where the job says so", () => {
    expect(room([], null)).toEqual({ left: null, right: null, ceiling: null, floor: true });
  });
  it("has the ends that the drawing has lines of, and no others", () => {
    const found = room([line([-140, 0], [-140, 2500]), line([-140, 2500], [2900, 2500])], 2500, false);
    expect(found).toEqual({ left: -140, right: null, ceiling: 2500, floor: false });
  });
});

describe("the picture's name", () => {
  it("is the job's, without what no system allows in a name", () => {
    expect(fileNamed('Wall: "A/B"  two')).toBe("Wall A B two.png");
    expect(fileNamed("")).toBe("piece.png");
  });
});
