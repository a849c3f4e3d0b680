import { describe, expect, it } from "vitest";
import type { Told } from "../../core/answers.svelte";
import { plugsOf, type Mouth } from "./plugs";
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

describe("the plugs in the client's picture", () => {
  const mouth = (part: Partial<Mouth>): Mouth => ({
    what: "plug", board: "side", cut: "screw holes in side for shelf", joint: ["shelf", "side"], at: [0, 412, 75], out: [-1, 0, 0], normal: [-1, 0, 0], wide: 12,
    looks: "left", covered: false, by: [], seen_from: ["left"], ...part,
  });
  const told = (part: Partial<Told<"driving">>): Told<"driving"> => ({
    result: { steps: [], screws: [], eyes: [], sights: [], room: [], bench: [], joined: [], mouths: [mouth({}), mouth({ covered: true }), mouth({ what: "mouth" })] },
    why: "", stale: false, revision: 4, done: 1, ...part,
  });
  it("are those that nothing lies against, and no open mouths", () => {
    expect(plugsOf(told({}), 4)).toEqual({ plugs: [mouth({})], lacks: "" });
  });
  it("are not known of another drawing than that which is seen, and it is said", () => {
    for (const one of [plugsOf(told({ stale: true }), 4), plugsOf(told({}), 5)]) {
      expect(one).toEqual({ plugs: null, lacks: "Which plugs can be seen is not known: it is worked out anew after the last change. Their holes are drawn open." });
    }
  });
  it("are not known where the study has no result, and why is said", () => {
    const { plugs, lacks } = plugsOf(told({ result: null, why: "it is still being worked out", revision: null, done: 0 }), 4);
    expect(plugs).toBeNull();
    expect(plugsOf(told({ result: null, revision: null, done: 0 }), 4).lacks).toBe(lacks); // nothing has come yet at all
    expect(lacks).toBe("Which plugs can be seen is not known: it is still being worked out. Their holes are drawn open.");
  });
});
