import { describe, expect, it } from "vitest";
import type { Order, Step } from "../../core/wire";
import { and, awayAt, framesOf, grouped, standsWords, wayWords } from "./frames";
import { frameAt, placeOf, shownAt } from "./showing";

const step = (part: Partial<Step>): Step => ({ name: "", parts: [], onto: [], legs: [], into: [], joints: [], cuts: [], turned: false, up: "front", ...part });

const RESULT: Order = {
  stages: [
    {
      name: "", place: "shop", parts: ["a", "b", "c"], first: ["a"], after: ["keys let in"], turns: 0, locked: [],
      steps: [{ name: "b", parts: ["b"], onto: ["a"], legs: [{ direction: [0, 0, -1], distance: 150 }], into: ["a"], joints: [["a", "b"]], cuts: [], turned: false, up: "front" }],
    },
  ],
  turns: 0, refused: [], overlaps: [], wall: null, proof: "for straight moves",
};

describe("the order as ticks", () => {
  it("lays the first part down, puts each in, and waits for the glue", () => {
    expect(framesOf(RESULT).map((frame) => [frame.kind, frame.words, frame.there])).toEqual([
      ["lay", "a laid down", []], ["move", "b into a", ["a"]], ["after", "keys let in", ["a", "b"]], ["stand", "to its place", ["a", "b", "c"]],
    ]);
  });

  it("counts as the booklet does: what only lies beside shares the first, what begins by itself and all that waits have one each", () => {
    const down: Step["legs"] = [{ direction: [0, 0, -1], distance: 150 }];
    const steps = [
      step({ name: "b", parts: ["b"], onto: ["a"] }), step({ name: "c", parts: ["c"], onto: ["a", "b"], legs: down, into: ["a", "b"] }),
      step({ name: "e", parts: ["e"], onto: ["d"], legs: down, into: ["d"] }),
    ];
    const stages = RESULT.stages.flatMap((stage) => [{ ...stage, steps, after: ["keys of a and c", "keys of d and e"] }, { ...stage, name: "lone", steps: [] }]);
    expect(framesOf({ ...RESULT, stages }).map((frame) => [frame.kind, frame.words])).toEqual([
      ["lay", "a and b laid down"], ["move", "c into a and b"], ["lay", "d laid down"], ["move", "e into d"], ["after", "keys"], ["stand", "to its place"],
    ]);
  });
});

describe("the last step", () => {
  const sheet = { title: "", says: "", puts: [], minds: [], homes: [], cards: [], dry: [], whole: false, wares: [] };

  it("brings all to the wall, where the booklet does, with what goes in there at its joint", () => {
    expect(framesOf(RESULT).map((frame) => frame.kind)).toEqual(["lay", "move", "after", "stand"]);
    const steps = [sheet, sheet, sheet, { ...sheet, whole: true, wares: [{ joint: ["a", "wall"] as [string, string], says: "2 screws" }] }];
    const shown = shownAt(RESULT, 4, { steps });
    expect([...(shown?.joints ?? [])]).toEqual([["a\nwall", { label: "2 screws", rank: 1 }]]);
    expect(shown?.legend?.says).toBe("Standing at its wall.");
  });
  it("says nothing of other joints where the booklet counts other steps", () => {
    expect(shownAt(RESULT, 2, { steps: [{ ...sheet, wares: [{ joint: ["a", "b"], says: "2 screws" }] }] })?.joints.size).toBe(0);
  });
});

describe("on the wall", () => {
  const onto = step({ name: "b", parts: ["b"], onto: ["a"], into: ["a"], legs: [{ direction: [0, 0, -1], distance: 150 }] });
  const up = { comes: "front", along: ["a"], held: "joints", holding: [], low: [0, 0, 0], high: [1, 1, 1], on_wall: true } as const;
  const hung: Order = { ...RESULT, wall: { bodies: [["a"], ["b"]], barred: [], room: [], asked: true, steps: [{ ...up, low: [0, 0, 0], high: [1, 1, 1], along: [], holding: [], step: step({ name: "a", parts: ["a"] }) }, { ...up, along: ["a"], holding: [], low: [0, 0, 0], high: [1, 1, 1], step: onto }] } };

  it("follows step by step where the piece is put together there, with what hangs then", () => {
    expect(framesOf(hung, { way: "wall" }).slice(4).map((frame) => [frame.kind, frame.words, frame.there])).toEqual([["hang", "a to the wall", []], ["hang", "b into a", ["a"]]]);
    expect(shownAt(hung, 6, null, { way: "wall" })?.legend?.says).toBe("Standing at its wall.");
    expect(wayWords(onto, true)).toBe("back to the wall");
  });
  it("is not shown where it is lifted whole", () => {
    expect(framesOf(hung, { way: "floor" }).at(-1)?.kind).toBe("stand");
    expect(framesOf(hung).length).toBe(4);
  });
});

describe("how the order stands", () => {
  const none: Order = { stages: [], turns: 0, refused: [], overlaps: [["a", "b"]], wall: null, proof: "for straight moves" };

  it("says how many steps there are", () => {
    expect(standsWords(RESULT, framesOf(RESULT), "", false)).toBe("4 steps, proved for straight moves");
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

describe("what the light shows", () => {
  it("is nothing of its own while there is no order", () => {
    expect(shownAt(null, 0)).toBeNull();
    expect(shownAt({ stages: [], turns: 0, refused: [], overlaps: [["a", "b"]], wall: null, proof: "" }, 1)).toBeNull();
  });

  it("has what comes so far from home as is left of its way, drawn a quarter longer, and what is to come faint", () => {
    const shown = shownAt(RESULT, placeOf(1, 0.4));
    expect(shown?.pose?.get("b")?.slice(12, 15)).toEqual([0, 0, expect.closeTo(150 * 1.25 * 0.6, 3)]);
    expect(shown?.pose?.get("a")?.slice(12, 15)).toEqual([0, 0, 0]);
    expect([...(shown?.boards ?? [])]).toEqual([["c", { faint: true }]]);
    expect(shown?.stands).toBe("together, step 2");
  });

  it("leaves out what is of another stage", () => expect(shownAt(RESULT, 1)?.pose?.has("elsewhere")).toBe(false));

  it("stays at the last step where the slider was farther, and begins with the first one home", () => {
    const frames = framesOf(RESULT);
    expect(frameAt(frames, 9)).toEqual({ index: 3, share: 1 });
    expect(frameAt(frames, 0)).toEqual({ index: 0, share: 1 });
    expect(frameAt(frames, placeOf(2, 0)).index).toBe(2);
  });
});
