import { describe, expect, it } from "vitest";
import { meantBy, reason, snapped } from "./snap";
import type { Candidate, Gripped } from "./wire";

const candidate = (part: Partial<Candidate> & Pick<Candidate, "snap" | "at">): Candidate => ({ handle: 0, says: "", guide: [], rank: 0, pivot: null, place: "", axis: "", ...part });
const gripped = (candidates: Candidate[], part: Partial<Gripped> = {}): Gripped => ({
  revision: 1, handles: [{ at: [100, 200], says: "end" }], candidates, offers: [], along: null, step: 1, follow: [], bays: [], ...part,
});

describe("snapping to what the server offers", () => {
  it("comes to a place within reach, on each axis by itself", () => {
    const found = snapped(gripped([candidate({ snap: "x", at: 150 }), candidate({ snap: "y", at: 260 })]), [47, 58], 5, false);
    expect(found.by).toEqual([50, 60]);
    expect(found.snaps).toHaveLength(2);
  });

  it("leaves what is out of reach, and rounds to the step", () => {
    const found = snapped(gripped([candidate({ snap: "x", at: 150 })]), [30.4, 0.2], 5, false);
    expect(found).toEqual({ by: [30, 0], snaps: [] });
  });

  it("takes the better rank where two are as near", () => {
    const two = [candidate({ snap: "x", at: 150, says: "measure", rank: 3 }), candidate({ snap: "x", at: 150, says: "end of shelf", rank: 1 })];
    expect(snapped(gripped(two), [49, 0], 5, false).snaps[0]?.says).toBe("end of shelf");
  });

  it("does nothing but round while snapping is left", () => {
    expect(snapped(gripped([candidate({ snap: "x", at: 150 })]), [49.4, 0], 5, true).by).toEqual([49, 0]);
  });

  it("turns about a pivot to a multiple of half a degree, as far from it as before to the hand's step", () => {
    const turn = candidate({ snap: "angle", at: 0.5, pivot: [100, 0] }); // the handle stands 200 above the pivot
    const { by } = snapped(gripped([turn]), [31.5, 0.3], 5, false);
    const angle = (Math.atan2(200 + by[1], by[0]) * 180) / Math.PI;
    expect(angle * 2).toBeCloseTo(Math.round(angle * 2), 3);
    expect(Math.hypot(by[0], 200 + by[1])).toBeCloseTo(203, 2); // of hypot(31.5, 200.3) = 202.76
  });

  it("moves along its one direction only, and snaps on it", () => {
    const side = gripped([candidate({ snap: "y", at: 230 })], { along: [0, 1] });
    expect(snapped(side, [40, 28], 5, false).by).toEqual([0, 30]);
    expect(snapped(side, [40, 12.3], 5, false).by).toEqual([0, 12]);
  });

  it("puts a handle onto a line", () => {
    const line = candidate({ snap: "line", at: 0, guide: [[0, 0], [1000, 1000]] });
    const { by } = snapped(gripped([line]), [49, -51], 5, false);
    expect(100 + by[0]).toBeCloseTo(200 + by[1], 6);
  });

  it("sends back the place that it snapped to, and says so where only its figure is written", () => {
    const face = candidate({ snap: "x", at: 150, says: "at the left face of post", place: 'left("post")', axis: "x" });
    const stud = candidate({ snap: "x", at: 150, says: "on a stud's centre" });
    expect(meantBy([face, stud])).toEqual([{ handle: 0, axis: "x", place: 'left("post")' }]);
    expect(reason(face, true)).toBe("at the left face of post");
    expect(reason(face, false)).toBe("at the left face of post, as a figure");
    expect(reason(stud, true)).toBe("on a stud's centre, as a figure");
  });
});
