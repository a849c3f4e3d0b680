import { describe, expect, it } from "vitest";
import type { Order } from "../core/wire";
import { comesIn } from "./comes-in";

type Stage = Order["stages"][number];
type Step = Stage["steps"][number];
const DOWN: Step["legs"] = [{ direction: [0, 0, -1], distance: 150 }];
const step = (name: string, legs = DOWN): Step => ({ name, parts: [name], onto: [], legs, into: [], joints: [], cuts: [], turned: false, up: "front" });
const stage = (name: string, place: Stage["place"], first: string[], steps: Step[]): Stage => ({ name, place, parts: [], first, steps, after: [], turns: 0, locked: [] });
const ORDER: Order = {
  stages: [stage("glued box", "shop", ["box 1"], [step("box 2")]), stage("", "site", ["box 1", "post"], [step("end", []), step("shelf"), step("raking 1"), step("raking 2")])],
  turns: 0, refused: [], overlaps: [], proof: "", wall: null,
};

describe("when a board goes in", () => {
  it.each([
    ["raking 1", "in the room, after shelf and before raking 2"],
    ["raking 2", "in the room, after raking 1, last"],
    ["box 2", "in the shop, after box 1, last"],
    ["box 1", "in the shop, laid down first"],
    ["post", "in the room, laid down first"],
    ["end", "in the room, laid down first"],
    ["of another piece", ""],
  ])("%s: %s", (name, says) => expect(comesIn(ORDER, name)).toBe(says));
});
