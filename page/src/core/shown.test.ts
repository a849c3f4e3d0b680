/** A shelf of 1000 drawn level at 300 from x = 100 on, 24 thick; its middle hangs 2 lower, drawn 40 times: 80. */
import { describe, expect, it } from "vitest";
import { bentBy, bentLoop } from "./bend";
import { hatchApart, named, pairKey, placed, ranked, shifted, type Bend } from "./shown";
import type { Point } from "./viewport";

const PLACES = [{ a: 0, by: [0, 0, 0] }, { a: 500, by: [0, -2, 0] }, { a: 1000, by: [0, 0, 0] }] as const;
const BEND: Bend = { factor: 40, of: new Map([["shelf", PLACES]]) };
const LINE = [[100, 300], [1100, 300]] as const;
const LOOP: readonly Point[] = [[100, 288], [1100, 288], [1100, 312], [100, 312]];

describe("a board that is drawn bent", () => {
  it("goes as far as its places say, in between in proportion, beyond the last as the last", () => {
    expect([0, 250, 500, 900, 1200].map((a) => bentBy(PLACES, 40, a)[1] + 0)).toEqual([0, -40, -80, expect.closeTo(-16, 9), 0]);
    expect(bentBy([{ a: 300, by: [1, 2, 3] }], 2, 0)).toEqual([2, 4, 6]);
    expect(bentBy([], 2, 0)).toEqual([0, 0, 0]);
  });

  it("has a corner in its outline wherever the bend has one, on either side, and its ends where they were", () => {
    expect(bentLoop(LOOP, LINE, "shelf", BEND)).toEqual([[100, 288], [600, 208], [1100, 288], [1100, 312], [600, 232], [100, 312]]);
  });

  it("counts from the start of its line, whichever way that runs", () => {
    const skew: Bend = { factor: 1, of: new Map([["shelf", [{ a: 0, by: [0, -5, 0] }, { a: 1000, by: [0, 0, 0] }]]]) };
    expect(bentLoop(LOOP, [LINE[1], LINE[0]], "shelf", skew)[1]).toEqual([1100, 283]);
  });

  it("is left alone where the bend does not name it", () => expect(bentLoop(LOOP, LINE, "other", BEND)).toBe(LOOP));
});

describe("what is said beside a name", () => {
  it("is number, name, label and the tint's figure", () => {
    expect(named("shelf 2", { number: 3, label: "oak", tint: { share: 0.6, says: "62 %" } })).toBe("3 shelf 2: oak, 62 %");
    expect(named("shelf 2", undefined)).toBe("shelf 2");
    expect(named("", { tint: { share: 0.6, says: "62 %" } })).toBe("62 %");
  });

  it("keeps its place by rank, all others as they stood", () => {
    const rank = new Map([["c", 1], ["b", 2]]);
    expect(ranked(["a", "b", "c", "d"], (name) => ({ rank: rank.get(name) ?? Infinity }))).toEqual(["c", "b", "a", "d"]);
  });
});

describe("a tint", () => {
  it("is hatched nearer the greater its share, so that it is seen without its colour", () => {
    const apart = [0, 0.3, 0.6, 0.9, 1].map(hatchApart);
    expect(apart).toEqual([...apart].sort((one, other) => other - one));
    expect(new Set(apart).size).toBe(4);
  });
});

describe("a pose", () => {
  it("takes a place along", () => expect(placed(shifted([5, -3, 2]), [1, 1, 1])).toEqual([6, -2, 3]));
  it("is kept by pairs in their own order", () => expect(pairKey(["a", "b"])).not.toBe(pairKey(["b", "a"])));
});
