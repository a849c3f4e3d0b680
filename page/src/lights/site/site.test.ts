import { describe, expect, it } from "vitest";
import type { Results } from "../../core/wire";
import { shownAt } from "./showing";
import { acts, isOf, joinedRows, laterOver, standing, stateOf, stepsOf, truest, type Driven, type Entering } from "./steps";
import { doneWords, liftWords, trueWords } from "./words";

const bar = (part: string, step: number, lies: boolean, beside = false): Driven["bars"][number] => ({ part, says: part, step, lies, beside, hand: false, distance: lies ? 0 : 90 });
const screw = (part: Partial<Driven>): Driven => ({
  fixing: "f", number: 1, cut: "", board: "shelf", mouth: [0, 0, 0], screw: "wood screw 5 x 120", anchor: "", plugged: true, counterbore: 12, deep: 243,
  stands: { length: 120, wide: 5, hole: 5.5, grip: 57, gap: 5, lining: 25, held: 30 }, bit: 300, least: 273, bit_from: "to buy", owned: "", tool: "drill", line: 300, wide: 70,
  here: 1, until: 3, step: 1, asked: null, tight: 2, waits: "raking", shorter: null, moved: null, longer: null, angle: null, bars: [], covered: null, ...part,
});
const lift = (parts: string[], part: Partial<Results["hanging"]["offers"][number]["lifts"][number]> = {}): Results["hanging"]["offers"][number]["lifts"][number] => ({
  says: parts.join(), parts, mass_kg: 12, reckoned_kg: 14.4, may_kg: 16.7, people: 2, better_less: false, hands: [128, 152], overhead: false, holding: 0, ...part,
});
const offer = (way: "floor" | "wall", lifts: ReturnType<typeof lift>[]): Results["hanging"]["offers"][number] => ({ way, possible: true, lifts, kg_people: 24, people: 2 });
const HUNG: Results["hanging"] = { way: "wall", decider: "lifting", offers: [offer("floor", []), offer("wall", [lift(["shelf"]), lift(["raking"])])] };
const DRIVEN: Results["driving"] = {
  steps: [{ says: "shelf", parts: ["shelf"], into: [], on_wall: true }, { says: "raking", parts: ["raking"], into: ["shelf"], on_wall: true }, { says: "post", parts: ["post"], into: [], on_wall: true }],
  screws: [screw({}), screw({ number: 2, step: null, tight: null })], eyes: [], sights: [], room: [], bench: [], joined: [], mouths: [],
};
const STEPS = stepsOf({ order: null, hanging: HUNG, driving: DRIVEN });
const FIRST = STEPS[0] ?? expect.fail("there are steps");

describe("the steps on the wall", () => {
  it("are those that screws are looked at by, each with its lift", () => {
    expect(STEPS.map((one) => [one.number, one.name, one.lift?.people ?? null])).toEqual([[1, "shelf", 2], [2, "raking", 2], [3, "post", null]]);
    expect([...standing(STEPS, 3)]).toEqual(["shelf", "raking"]);
  });

  it("are one lift where it goes up whole and no screw is looked at", () => {
    const whole: Results["hanging"] = { ...HUNG, way: "floor", offers: [offer("floor", [lift(["shelf", "raking"])]), offer("wall", [])] };
    expect(stepsOf({ order: null, hanging: whole, driving: null }).map((one) => one.parts)).toEqual([["shelf", "raking"]]);
    expect(stepsOf({ order: null, hanging: null, driving: null })).toEqual([]);
  });

  it("dash what is still to come, with its step, and nothing that stands", () => {
    const shown = shownAt(STEPS, 1);
    expect(shown?.stands).toBe("hanging, step 1 of 3");
    expect(shown?.boards.get("raking")).toMatchObject({ faint: true, label: "step 2" });
    expect(shown?.boards.get("shelf")?.faint).toBeUndefined();
    expect(shownAt(STEPS, 0)?.boards.get("shelf")).toMatchObject({ faint: true, label: "step 1" });
    expect(shownAt([], 0)).toBeNull();
  });
});

describe("a screw at a step", () => {
  it("is not driven yet, then loose, then home; or never", () => {
    const one = screw({ step: 2, tight: 4 });
    expect([1, 2, 3, 4, 5].map((at) => stateOf(one, at))).toEqual(["not yet", "loose", "loose", "home", "home"]);
    expect(stateOf(screw({ step: 2, tight: 2 }), 2)).toBe("home");
    expect(stateOf(screw({ step: null, tight: null }), 9)).toBe("never");
    expect([1, 2, 3, 4].filter((at) => isOf(one, at))).toEqual([2, 4]);
  });

  it("is told with what is done to it, those alike together", () => {
    const some = [screw({ number: 1 }), screw({ number: 2 }), screw({ number: 3, board: "top", step: 2, tight: 2 })];
    expect(acts(some, 1)).toEqual(["2 screws of shelf driven, left loose"]);
    expect(acts(some, 2)).toEqual(["2 screws of shelf tightened", "1 screw of top driven home"]);
  });

  it("has what lies over its mouth before what only shortens its line, and nothing that is beside the bit alone", () => {
    const over = bar("cap", 5, true);
    expect(laterOver(screw({ bars: [bar("post", 3, false), over], covered: over }))?.part).toBe("cap");
    expect(laterOver(screw({ bars: [bar("near", 2, false, true), bar("post", 3, false)] }))?.part).toBe("post");
    expect(laterOver(screw({ bars: [bar("near", 2, false, true)] }))).toBeNull();
  });
});

describe("screws from board to board", () => {
  const joined = (part: Partial<Results["driving"]["joined"][number]>): Results["driving"]["joined"][number] => ({
    joint: ["left", "shelf"], number: 1, cut: "", board: "left", into: "shelf", mouth: [0, 400, 100], out: [-1, 0, 0], screw: "wood screw 5 x 60",
    bit: 50, bit_from: "to buy", owned: "", tool: "drill", line: 283, wide: 70, here: 1, until: 2, step: 1, bars: [], covered: null, ...part,
  });
  const bench: Results["driving"]["bench"] = [
    { stage: "bay", number: 0, says: "", parts: ["left"], onto: [], on_wall: false }, { stage: "bay", number: 1, says: "shelf", parts: ["shelf"], onto: ["left"], on_wall: false },
    { stage: "", number: 2, says: "cover", parts: ["cover"], onto: [], on_wall: true },
  ];

  it("say when they are driven, those alike together, and what comes over them", () => {
    const cover = bar("cover", 2, true);
    const rows = joinedRows({ ...DRIVEN, bench, joined: [joined({}), joined({ number: 2 }), joined({ number: 3, covered: cover, bars: [cover] }), joined({ number: 4, board: "right", step: null, until: null })] });
    expect(rows.map((row) => [row.what, row.driven, row.then, row.never])).toEqual([
      ["2 through left into shelf", "bay, step 1", "stays free", false],
      ["1 through left into shelf", "bay, step 1", "cover covers them: on the wall, step 2", false],
      ["1 through right into shelf", "never", "stays free", true],
    ]);
    expect(joinedRows(null)).toEqual([]);
  });
});

describe("the words of the foot", () => {
  const entry = (parts: string[], right: number | null, left: number | null): Entering => ({
    name: parts.join(), parts, base: ["shelf"], joints: 2, halved: true, right, left, wide: 1200, high: 1140, shift: null, pitch: null, plan: null, play: 0.2,
  });

  it("say how true by the closest of what still comes, never larger than it is", () => {
    const entries = [entry(["raking"], 0.00085, 0.0009), entry(["post"], 0.004, null), entry(["aside"], null, null)];
    expect(trueWords(entries, STEPS, 1, "mm")).toMatchObject({ figure: "0.9" }); // 0.969 over 1140
    expect(truest(entries, STEPS, 3)?.entry.parts).toEqual(["post"]);
    expect(trueWords([entry(["raking"], null, null)], STEPS, 1, "mm")).toBeNull();
  });

  it("say who lifts, and that a load is too heavy for three", () => {
    expect(liftWords(FIRST, "mm")).toBe("Two people: 12 kg, reckoned 14; hands 128 to 152 up");
    expect(liftWords({ ...FIRST, lift: lift(["shelf"], { people: null, holding: 1 }) }, "mm")).toContain("Too heavy for three by the guideline, 1 more to hold what is loose");
    expect(liftWords({ ...FIRST, lift: lift(["shelf"], { mass_kg: null, people: null }) }, "mm")).toContain("Weigh it first");
    expect(doneWords(FIRST, DRIVEN.screws)).toBe("Shelf: lifted to its marks; 1 screw of shelf driven, left loose");
  });
});
