import { describe, expect, it } from "vitest";
import { rowsOf, spread } from "./rows";

describe("figures along a line", () => {
  it("stand in one row while they fit, then in the next, and are counted where there is none", () => {
    const span = (at: number): { at: number; wide: number } => ({ at, wide: 40 });
    expect(rowsOf([span(0), span(50), span(70), span(75), span(140)], 2)).toEqual([0, 0, 1, null, 0]);
  });

  it("are pushed apart about their own places, and stay in their order", () => {
    expect(spread([100, 200, 300], 16)).toEqual([100, 200, 300]);
    expect(spread([108, 100], 16)).toEqual([112, 96]); // 16 apart about their middle, 104
    expect(spread([0, 0, 0], 10)).toEqual([-10, 0, 10]);
    const apart = spread([5, 5, 9, 40, 41], 10);
    apart.slice(1).forEach((at, index) => expect(at - (apart[index] ?? 0)).toBeGreaterThanOrEqual(10 - 1e-9));
  });
});
