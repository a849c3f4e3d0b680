import { describe, expect, it } from "vitest";
import { overlaps, runsThrough, type Rect } from "../core/rect";
import type { BoardShown } from "../core/wire";
import { figureRects, rakeAt, saidAlong } from "./along";
import { bend } from "./leader";

/** A post of 1000 that stands at x = 500, met at 300 and 310 and screwed at 900; 0.5 px a mm, the floor at y = 600. */
const POST: BoardShown = {
  name: "post", line: [[500, 0], [500, 1000]], timber: "oak", outline: [], face: [], lines: [], thickness: 24, depth: 300, back: 0, front: 300, length: 1000,
  rake: 90, lies: "across", frame: "", row: false, index: 1, mark: "A", path: ["board", 0], label_at: [0, 0],
  foot: [500, 0], head: [500, 1000], along: [300, 310, 900, 1000].map((value) => ({ value, joint: value === 1000 ? null : ["post", `at ${value}`] })),
};
const view = { scale: 0.5, x: 0, y: 600 };
const said = (used: readonly Rect[] = []): ReturnType<typeof saidAlong> => saidAlong(POST, view, "mm", used);

describe("figures along the chosen board", () => {
  it("stand left of their arrows, those of one place apart, and none is left out", () => {
    const all = said();
    expect(all.map(({ words, left }) => [words, left])).toEqual([["300", false], ["310", false], ["900", false], ["1000", false]]);
    const rects = figureRects(all);
    rects.forEach((one, index) => rects.slice(index + 1).forEach((other) => expect(overlaps(one, other)).toBe(false)));
  });

  it("give way to what has its place already, led to by a thin line", () => {
    const name = figureRects(said())[2];
    if (!name) throw new Error("three have a place");
    const moved = said([name])[2];
    expect(moved?.left).toBe(false);
    expect(moved?.lead).not.toBeNull();
    expect(figureRects(said([name])).some((one) => overlaps(one, name))).toBe(false);
  });

  it("have no line through them, neither the dimension's own nor one that leads to another figure", () => {
    const all = said([{ left: 150, right: 215, top: 120, bottom: 160 }]);
    const leads = all.flatMap(({ lead }) => (lead ? [lead] : []));
    figureRects(all).forEach((rect, index) => {
      leads.filter((lead) => lead !== all[index]?.lead).forEach((lead) => expect(runsThrough(rect, ...lead)).toBe(false));
      expect(runsThrough(rect, [216, 600], [216, 100])).toBe(false); // 34 px left of the post
    });
  });

  it("are counted where nothing is free", () => expect(said([{ left: -999, right: 999, top: -999, bottom: 999 }]).every(({ left }) => left)).toBe(true));
});

describe("the rake's figure", () => {
  it("stands right of plumb for either lean, and nearer or farther where something is", () => {
    for (const lean of [-0.14, 0.14]) expect(rakeAt([100, 500], [lean, -0.99], "8.00°", []).at.x).toBeGreaterThan(100);
    const usual = rakeAt([100, 500], [0.14, -0.99], "8.00°", []);
    const taken = { left: usual.at.x, right: usual.at.x + 30, top: usual.at.y - 10, bottom: usual.at.y };
    expect(rakeAt([100, 500], [0.14, -0.99], "8.00°", [taken]).arc).not.toBe(usual.arc);
  });
});

describe("a note's leader", () => {
  const figure = { left: 205, right: 255, top: 440, bottom: 460 };

  it("turns up where it runs through no figure", () => {
    expect(runsThrough(figure, [bend([200, 300], 600, 800, [], view), 600], [200, 300])).toBe(true);
    expect(runsThrough(figure, [bend([200, 300], 600, 800, [], view, [figure]), 600], [200, 300])).toBe(false);
  });
});
