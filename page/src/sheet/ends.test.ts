import { describe, expect, it } from "vitest";
import { endOf, oppositeOf, rectangle, startOf, type EndKey, type Figures } from "./ends";

// A board from (548, 260) leaning 8 degrees to level 1240 ends at 548 + 980 tan 8 = 685.73 and is 980 / cos 8 = 989.63 long.
const START = [548, 260] as const;
const HAND = [700, 1200] as const;

const CASES: readonly { says: string; typed: Figures; latest: EndKey[]; hand: readonly [number, number] | null; end: readonly [number, number] | null }[] = [
  { says: "nothing typed: it is the hand's", typed: {}, latest: [], hand: HAND, end: HAND },
  { says: "a lean and a level", typed: { lean: 8, ey: 1240 }, latest: ["lean", "ey"], hand: null, end: [685.73, 1240] },
  { says: "a lean and a length", typed: { lean: 8, long: 989.63 }, latest: ["lean", "long"], hand: null, end: [685.73, 1240] },
  { says: "a lean held while the hand moves", typed: { lean: 0 }, latest: ["lean"], hand: HAND, end: [548, 1200] },
  { says: "a lean alone", typed: { lean: 8 }, latest: ["lean"], hand: null, end: null },
  { says: "how far across, with nobody's hand: level", typed: { ex: 900 }, latest: ["ex"], hand: null, end: [900, 260] },
  { says: "a level, with nobody's hand: plumb", typed: { ey: 900 }, latest: ["ey"], hand: null, end: [548, 900] },
  { says: "a level while the hand moves", typed: { ey: 900 }, latest: ["ey"], hand: HAND, end: [700, 900] },
  { says: "a length, the way of the hand", typed: { long: 100 }, latest: ["long"], hand: [548, 900], end: [548, 360] },
  { says: "a length and a level: to the right", typed: { long: 500, ey: 560 }, latest: ["ey", "long"], hand: null, end: [948, 560] },
  { says: "a length and a level, the hand on the left", typed: { long: 500, ey: 560 }, latest: ["ey", "long"], hand: [0, 0], end: [148, 560] },
  { says: "a length that does not reach", typed: { long: 100, ey: 900 }, latest: ["ey", "long"], hand: null, end: null },
  { says: "of three the last two", typed: { ex: 900, ey: 1240, lean: 8 }, latest: ["ex", "ey", "lean"], hand: null, end: [685.73, 1240] },
  { says: "level and leaning plumb cannot be", typed: { ex: 900, lean: 0 }, latest: ["lean", "ex"], hand: null, end: null },
];

describe("the far end of a board", () => {
  it.each(CASES)("$says", ({ typed, latest, hand, end }) => {
    const found = endOf(typed, latest, START, hand);
    if (end === null) return expect(found).toBeNull();
    expect(found?.[0]).toBeCloseTo(end[0], 1);
    expect(found?.[1]).toBeCloseTo(end[1], 1);
  });

  it("begins where it was typed, else at the hand", () => {
    expect(startOf({ x: 10 }, HAND)).toEqual([10, 1200]);
    expect(startOf({ x: 10 }, null)).toBeNull();
  });
});

describe("a frame by two corners", () => {
  it("keeps what was typed, on the side where the hand is", () => {
    expect(oppositeOf({ wide: 200 }, [0, 0], [-50, 70])).toEqual([-200, 70]);
    expect(oppositeOf({ wide: 200, high: 100 }, [50, 0], null)).toEqual([250, 100]);
    expect(oppositeOf({ wide: 200 }, [50, 0], null)).toBeNull();
  });

  it("is a rectangle from its lower left corner round", () => expect(rectangle([9, 1], [3, 4])).toEqual([[3, 1], [9, 1], [9, 4], [3, 4]]));
});
