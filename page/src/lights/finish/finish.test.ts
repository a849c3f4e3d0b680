import { describe, expect, it } from "vitest";
import { areaWords, frameAt, framesOf, patchWords, shownAt, type Coating, type CoatedFace, type FinishStep } from "./shown";

const step = (part: Partial<FinishStep>): FinishStep => ({ act: "coat", boards: ["a"], coat: 0, hours: null, day: null, date: "", grits: [], ...part });
const face = (part: Partial<CoatedFace>): CoatedFace => ({ board: "a", face: "face +", called: "upper", long: 1000, across: 200, m2: 0.2, open_m2: 0.19, seen_m2: 0.19, masked_m2: 0.01, coated_m2: 0, bare_m2: 0, glued_m2: 0.01, places: [], ...part });
const board = (name: string, coats: number, open_m2 = 0.4): Coating["boards"][number] => ({ name, when: coats ? "before glue" : null, coats, open_m2, edges_m2: 0.05, coated_m2: 0, masked_m2: 0.01 });

/** Two coats on a, none known of b; they are glued, then put in. */
const PLAN: Coating = {
  system: "varnish", boards: [board("a", 2), board("b", 0)], stages: [], covers: null, covers_from: "", recoat_h: 12, recoat_from: "", cure_d: 7, cure_from: "",
  self_heating: true, fumes: true, waits: [], eyes: [], sandings: [], racks: [], slower: 1, temperature: null, humidity: null,
  faces: [face({}), face({ face: "face -", called: "lower", open_m2: 0.21, seen_m2: 0.01 })],
  joints: [{ joint: ["a", "b"], closes: "glued", glued: true, states: ["masked", "bare"], films: [0, 0], wall_films: [0, 0], hidden_m2: [0.01, 0.01] }],
  steps: [
    step({ act: "sand", grits: [120, 180] }), step({ act: "mask" }), step({ coat: 1, hours: 0, day: 1 }), step({ act: "sand", hours: 24, day: 2, grits: [240] }),
    step({ coat: 2, hours: 24, day: 2, date: "2026-05-05" }), step({ act: "glue", boards: ["a", "b"], hours: 48, day: 3 }),
  ],
};

describe("the plan as frames", () => {
  it("begins with areas, then counts the coats that are on", () => {
    const frames = framesOf(PLAN);
    expect(frames.map((frame) => frame.words)).toEqual([
      "What is seen, hidden and masked", "sand by P120, P180: a", "mask the joints of a", "coat 1 on a", "sand by P240: a", "coat 2 on a", "glue up all boards",
    ]);
    expect(frames.map((frame) => frame.coats.get("a"))).toEqual([0, 0, 0, 1, 1, 2, 2]);
    expect(frames.map((frame) => frame.day)).toEqual(["", "", "", "day 1", "day 2", "day 2, 2026-05-05", "day 3"]);
  });
  it("has none where nothing is planned", () => {
    expect(framesOf({ ...PLAN, steps: [] })).toEqual([]);
    expect(shownAt({ ...PLAN, steps: [] }, 0)).toBeNull();
  });
  it("stays within what there is", () => expect([frameAt(framesOf(PLAN), -1), frameAt(framesOf(PLAN), 2.4), frameAt(framesOf(PLAN), 99)]).toEqual([0, 2, 6]));
});

describe("what is shown", () => {
  it("is at first how much of each board is seen, and what is masked", () => {
    const shown = shownAt(PLAN, 0);
    expect(shown?.boards.get("a")).toEqual({ tint: { share: expect.closeTo(0.5, 9), says: "0.20 of 0.40 m² seen" } });
    expect(shown?.boards.get("b")).toEqual({ faint: true, label: "coats: not known when" });
    expect(shown?.joints.get("a\nb")).toEqual({ label: "masked" });
  });
  it("is then, step by step, the share of its coats, with its figure", () => {
    expect(shownAt(PLAN, 3)?.boards.get("a")).toEqual({ rank: 1, label: "wet", tint: { share: 0.5, says: "1 of 2 coats" } });
    expect(shownAt(PLAN, 3)?.legend?.says).toBe("Coat 1 on a; day 1");
    expect(shownAt(PLAN, 2)?.joints.get("a\nb")).toEqual({ label: "masked" });
    expect(shownAt(PLAN, 6)?.joints.get("a\nb")).toEqual({ label: "glued" });
  });
  it("tells the film with which a dry joint closes on site", () => {
    const dry = { ...PLAN, steps: [step({ act: "put in", boards: ["a", "b"] })], joints: PLAN.joints.map((joint) => ({ ...joint, closes: "put in" as const, glued: false, films: [0.066, 0.066] as [number, number] })) };
    expect(shownAt(dry, 1)?.joints.get("a\nb")?.label).toBe("film 0.066 and 0.066 a face");
  });
});

describe("areas", () => {
  it("are in the units of the lengths", () => {
    expect([areaWords(1, "mm"), areaWords(1, "in"), patchWords(0.0134, "mm"), patchWords(0.0134, "in")]).toEqual(["1.00 m²", "10.8 ft²", "134 cm²", "20.8 sq in"]);
  });
});
