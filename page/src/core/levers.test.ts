import { describe, expect, it } from "vitest";
import { figuresOf, rangeOf } from "./levers";

/** As Python gives it of a model with a length within bounds, a count, a mass and a word. */
const LEVERS = {
  doors: {
    DoorLever: {
      type: "object",
      properties: {
        hands: { anyOf: [{ type: "number" }, { type: "string" }], unit: "mm", arithmetic: true, default: 20, description: "Beside the piece.", within: { minimum: 0, maximum: 200 } },
        people: { type: "integer", default: 1, minimum: 1, description: "Pairs of hands." },
        held_kg: { type: "number", default: 2.5, exclusiveMinimum: 0, unit: "kg" },
        how: { type: "string", default: "slowly" },
      },
    },
  },
};

describe("the levers of a study", () => {
  const figures = figuresOf(LEVERS, "doors");
  const range = (at: number): string => (figures[at] ? rangeOf(figures[at], String) : "");

  it("are its figures with their unit, default and sentence", () => {
    expect(figures.map(({ lever, figure, label, unit, given }) => [lever, figure, label, unit, given])).toEqual([
      ["DoorLever", "hands", "hands", "mm", 20], ["DoorLever", "people", "people", "", 1], ["DoorLever", "held_kg", "held kg", "kg", 2.5],
    ]);
    expect(figures[0]?.sentence).toBe("Beside the piece.");
  });
  it("have their range in words", () => {
    expect([range(0), range(1), range(2)]).toEqual(["0 to 200 mm", "at least 1", "more than 0 kg"]);
  });
  it("are none where a study has none", () => expect(figuresOf(LEVERS, "order")).toEqual([]));
});
