import { describe, expect, it } from "vitest";
import type { PartModel } from "./model";
import { HOME, pairKey, type Shown } from "../core/shown";
import type { BoardShown, JointShown } from "../core/wire";
import { jointPlaces, namePlaces, type Seen } from "./names";

/** A plumb board of 400 by 300, its middle at the origin, seen square from the front, 1 px a mm. */
const PART: PartModel = {
  board: "post", key: "", matrix: [0, 1, 0, 0, -1, 0, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1], centre: [0, 0, 0], size: [400, 24, 300],
  mesh: { positions: new Float32Array(), indices: new Uint32Array(), runs: [] },
};

/** What is met there: the post where it is drawn, and another board over all that is right of it. */
function stage(away: readonly [number, number, number], other: boolean): Seen {
  const hit: Seen["hit"] = (x, y) => {
    const board = Math.abs(x - away[0]) <= 12 && Math.abs(y + away[1]) <= 200 ? "post" : other && x > away[0] ? "other" : "";
    return board ? { board, cut: "", at: [x, y, 0], normal: [0, 0, 1], home: null } : null;
  };
  return { parts: [PART], at: ([x, y]) => [x, -y], hit, placed: (_, [x, y, z]) => [x + away[0], y + away[1], z + away[2]], lookOf: () => undefined };
}

const named = (seen: Seen): { x: number; y: number } => {
  const [name] = namePlaces(seen, new Set(["post"]), false, true);
  return { x: name?.x ?? NaN, y: name?.y ?? NaN };
};

describe("the name of the board that is chosen", () => {
  it("goes with its board on its way in", () => {
    const [home, out] = [named(stage([0, 0, 0], false)), named(stage([500, 120, 0], false))];
    expect([out.x - home.x, out.y - home.y]).toEqual([500, -120]);
  });
  it("stands on the other side where another board lies beside it", () => {
    expect(named(stage([0, 0, 0], false)).x).toBeGreaterThan(0);
    expect(named(stage([0, 0, 0], true)).x).toBeLessThan(-12);
  });
  it("is left out while its board is not seen", () => expect(namePlaces({ ...stage([0, 0, 0], false), hit: () => null }, new Set(["post"]), false, true)).toEqual([]));
});

describe("the name of a board that is not chosen", () => {
  const at = (seen: Seen): number => namePlaces(seen, new Set(), true)[0]?.x ?? NaN;
  it("lies on no other board either", () => {
    expect(at(stage([0, 0, 0], false))).toBeGreaterThan(0);
    expect(at(stage([0, 0, 0], true))).toBeLessThan(-12);
    expect(at(stage([500, 0, 0], true)), "apart").toBeLessThan(500 - 12);
  });
});

describe("what a light says of a joint", () => {
  const board = (name: string): BoardShown => ({
    name, line: [[0, 0], [1, 0]], timber: "oak", outline: [], face: [], lines: [], thickness: 24, depth: 300, back: 0, front: 150, length: 1, rake: 0, lies: "across",
    frame: "", row: false, index: 1, mark: "A", path: ["board", 0], label_at: [0, 0], foot: [0, 0], head: [1, 0], along: [],
  });
  const joint: JointShown = { boards: ["post", "shelf"], kind: "housing", mark: "housing", at: [30, 40], also: [], angle: 90, making: "", front: "", says: [] };
  const boards = new Map(["post", "shelf"].map((name) => [name, board(name)]));
  const shown: Shown = { boards: new Map(), joints: new Map([[pairKey(joint.boards), { label: "62 %" }]]) };
  const places = (hit: string | null, more: Partial<Shown> = {}): readonly unknown[] =>
    jointPlaces({ ...stage([0, 0, 0], false), hit: () => (hit === null ? null : { board: hit, cut: "", at: [0, 0, 0], normal: [0, 0, 1], home: null }) }, { ...shown, ...more }, [joint], boards);

  it("stands where its boards meet, while one of them or nothing is seen there", () => {
    expect(places("post")).toEqual([expect.objectContaining({ says: "62 %", x: 30, y: -40 })]);
    expect(places(null)).toHaveLength(1);
  });
  it("is left out behind another board, and where one of its boards is not there", () => {
    expect(places("other")).toEqual([]);
    expect(places("post", { pose: new Map([["post", HOME]]) })).toEqual([]);
  });
  it("of a fixing stands at its first screw, with a mark at each, on the board it is cut in", () => {
    const screws: JointShown = { ...joint, boards: ["screws", "wall"], also: [[80, 40]], says: [{ board: "shelf", word: "bore", says: "" }] };
    const look: Shown = { boards: new Map(), joints: new Map([[pairKey(screws.boards), { label: "2 screws" }]]), pose: new Map([["shelf", HOME]]) };
    const found = jointPlaces({ ...stage([0, 0, 0], false), hit: () => null }, look, [screws], boards);
    expect(found.map(({ says, x }) => [says, x])).toEqual([["2 screws", 30], ["", 80]]);
  });
});
