import { describe, expect, it } from "vitest";
import type { PartModel } from "./model";
import { namePlaces, type Seen } from "./names";

/** A plumb board of 400 by 300, its middle at the origin, seen square from the front, 1 px a mm. */
const PART: PartModel = {
  board: "post", key: "", matrix: [0, 1, 0, 0, -1, 0, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1], centre: [0, 0, 0], size: [400, 24, 300],
  mesh: { positions: new Float32Array(), indices: new Uint32Array(), runs: [] },
};

/** What is met there: the post where it is drawn, and another board over all that is right of it. */
function stage(away: readonly [number, number, number], other: boolean): Seen {
  const hit: Seen["hit"] = (x, y) => {
    const board = Math.abs(x - away[0]) <= 12 && Math.abs(y + away[1]) <= 200 ? "post" : other && x > away[0] ? "other" : "";
    return board ? { board, cut: "", at: [x, y, 0], normal: [0, 0, 1] } : null;
  };
  return { parts: [PART], at: ([x, y]) => [x, -y], hit, awayOf: () => [...away] };
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
