import { describe, expect, it } from "vitest";
import { and, awayAt, framesOf, grouped, standsWords, wayWords } from "./frames";
import { orderOf, type Step } from "./order";

const step = (part: Partial<Step>): Step => ({ name: "", parts: [], onto: [], legs: [], into: [], joints: [], turned: false, up: "front", ...part });

const RESULT = {
  stages: [
    {
      name: "", place: "shop", parts: ["a", "b", "c"], first: ["a"], after: ["keys let in"], turns: 0, locked: [],
      steps: [{ name: "b", parts: ["b"], onto: ["a"], legs: [{ direction: [0, 0, -1], distance: 150 }], into: ["a"], joints: [["a", "b"]], cuts: [], turned: false, up: "front" }],
    },
  ],
  turns: 0, overlaps: [], proof: "for straight moves",
};

describe("the order as ticks", () => {
  it("lays the first part down, puts each in, and waits for the glue", () => {
    const order = orderOf(RESULT);
    expect(order && framesOf(order).map((frame) => [frame.kind, frame.words, frame.there])).toEqual([
      ["lay", "a laid down", []], ["move", "b into a", ["a"]], ["after", "keys let in", ["a", "b"]],
    ]);
  });

  it("counts as the booklet does: what only lies beside shares the first, what begins by itself and all that waits have one each", () => {
    const down = [{ direction: [0, 0, -1], distance: 150 }];
    const [stage] = RESULT.stages;
    const steps = [
      { name: "b", parts: ["b"], onto: ["a"], legs: [], into: [] }, { name: "c", parts: ["c"], onto: ["a", "b"], legs: down, into: ["a", "b"] },
      { name: "e", parts: ["e"], onto: ["d"], legs: down, into: ["d"] },
    ];
    const order = orderOf({ ...RESULT, stages: [{ ...stage, steps, after: ["keys of a and c", "keys of d and e"] }, { ...stage, name: "lone", steps: [] }] });
    expect(order && framesOf(order).map((frame) => [frame.kind, frame.words])).toEqual([
      ["lay", "a and b laid down"], ["move", "c into a and b"], ["lay", "d laid down"], ["move", "e into d"], ["after", "keys"],
    ]);
  });

  it.each([null, undefined, 3, {}, { stages: "none" }])("is none where there is none: %j", (result) => expect(orderOf(result)).toBeNull());
});

describe("how the order stands", () => {
  const order = orderOf(RESULT);
  const none = orderOf({ stages: [], turns: 0, overlaps: [["a", "b"]], proof: "for straight moves" });

  it("says how many steps there are", () => {
    expect(standsWords(order, order ? framesOf(order) : [], "", false)).toBe("3 steps, proved for straight moves");
  });
  it("proves nothing where there is no order, and waits for none", () => {
    expect(standsWords(none, [], "", false)).toBe("No order was found.");
    expect(standsWords(none, [], "", true)).toBe("No order was found; before the last change.");
  });
  it("waits, or says why it cannot, where nothing has answered", () => {
    expect(standsWords(null, [], "", false)).toBe("The order is being worked out.");
    expect(standsWords(null, [], "it died", false)).toBe("it died");
  });
});

describe("a part on its way in", () => {
  const two = step({ legs: [{ direction: [0, 0, -1], distance: 200 }, { direction: [1, 0, 0], distance: 50 }] });

  it("ends at home, its last leg last", () => {
    expect(awayAt(two, 1).map((value) => value + 0)).toEqual([0, 0, 0]);
    expect(awayAt(two, 0.9)[0]).toBeCloseTo(-25, 9); // 25 of 250 left, all of it on the last leg
    expect(awayAt(two, 0)).toEqual([-50, 0, 200]);
  });

  it("is said as one stands before it", () => expect(wayWords(two)).toBe("straight down, then from the left"));
});

describe("names in a row", () => {
  it("are said as from and to", () => expect(and(grouped(["shelf 1", "shelf 2", "shelf 3", "top"]))).toBe("shelf 1 to 3 and top"));
});
