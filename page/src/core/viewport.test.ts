import { describe, expect, it } from "vitest";
import { fitted, panned, toJob, toScreen, zoomed, type Viewport } from "./viewport";

const view: Viewport = { scale: 0.305, x: 84, y: 627 };

describe("between the job and the screen", () => {
  it("is its own way back", () => {
    const [x, y] = toJob(view, toScreen(view, [1234.5, 678.9]));
    expect(x).toBeCloseTo(1234.5, 9);
    expect(y).toBeCloseTo(678.9, 9);
  });

  it("keeps the place under the pointer while it grows", () => {
    const before = toJob(view, [400, 300]);
    const after = toJob(zoomed(view, [400, 300], 1.7), [400, 300]);
    expect(after[0]).toBeCloseTo(before[0], 9);
    expect(after[1]).toBeCloseTo(before[1], 9);
  });

  it("shows the whole box within the margins, at 0.305 px a mm for the demo of the look", () => {
    const found = fitted([0, 0, 2600, 1900], 1072, 682, { left: 84, right: 195, top: 46, bottom: 55 });
    expect(found.scale).toBeCloseTo(0.305, 3);
    expect(toScreen(found, [0, 0])[0]).toBeCloseTo(84, 6);
    expect(toScreen(found, [0, 1900])[1]).toBeGreaterThanOrEqual(46 - 1e-6);
  });

  it("pans by px", () => expect(panned(view, 10, -5)).toEqual({ scale: 0.305, x: 94, y: 622 }));
});
