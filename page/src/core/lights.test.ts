/** What a light says of itself, and whose a note is. A light here is asked nothing but what its folder would say. */
import { describe, expect, it } from "vitest";
import { aLight, type Light } from "./light";
import { lightNamed, lightOf } from "./lights.svelte";

const lit = (name: string, more: Partial<Light> = {}): Light => ({ name, word: name, order: 10, studies: [], ...more });
const ALL = [lit("set-out", { first: true }), lit("together", { studies: ["order", "fits"] }), lit("hold", { studies: ["glue_up"], waits: "for it" })];

describe("a light", () => {
  it("has the results of the studies it names, and no others", () => {
    const weight = aLight({
      name: "weight", word: "Weight", order: 55, studies: ["measures"],
      show: (results) => {
        // @ts-expect-error: it does not name the order
        results.order;
        // @ts-expect-error: the measures have no such figure
        results.measures?.colour;
        return results.measures && { boards: new Map(results.measures.mass_kg.map(([board, kg]) => [board, { label: kg.toFixed(1) }])), joints: new Map() };
      },
    });
    expect(weight.show?.({ measures: null }, 0)).toBeNull();
  });

  it("cannot ask for a study that there is not", () => {
    // @ts-expect-error: nobody has registered it
    expect(aLight({ name: "horoscope", word: "Stars", order: 1, studies: ["horoscope"] }).studies).toHaveLength(1);
  });
});

describe("whose a note is", () => {
  it("is the light's that names the study, and the first one's where none does or that one waits", () => {
    expect(["order", "glue_up", "set-out", "nobody"].map((study) => lightOf(study, ALL)?.name)).toEqual(["together", "set-out", "set-out", "set-out"]);
  });

  it("opens in the first one, which is shown for one that waits as well", () => {
    expect(["", "together", "hold"].map((name) => lightNamed(name, ALL)?.name)).toEqual(["set-out", "together", "set-out"]);
  });
});
