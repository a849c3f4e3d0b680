/** What is measured is of the piece as it stands together, however it is drawn. */
import { Matrix4 } from "three";
import { describe, expect, it } from "vitest";
import type { Vec } from "../core/shown";
import { measured } from "../core/units";
import { measuredWords } from "./lifting.svelte";
import { homeOf } from "./drawn";
import type { Hit } from "./scene";

const said = (mm: number): string => measured(mm, "mm");
const hit = (board: string, face: { at: Vec; normal: Vec }, home: Hit["home"]): Hit => ({ board, cut: "", ...face, home });

describe("what is measured", () => {
  it("is the same drawn together and apart: 24.25 between two walls that are drawn 400 apart", () => {
    const one = { at: [0, 0, 0] satisfies Vec, normal: [1, 0, 0] satisfies Vec };
    const other = { at: [424.25, 30, 5] satisfies Vec, normal: [-1, 0, 0] satisfies Vec };
    const home = homeOf(other, new Matrix4().toArray(), [400, 0, 0]);
    expect(measuredWords([hit("a", one, one), hit("b", other, home)], said)).toBe("24.25 between the faces");
  });

  it("is the same of a part that is posed: turned by a quarter and moved", () => {
    const pose = new Matrix4().makeRotationZ(Math.PI / 2).setPosition(10, 20, 30).toArray();
    const { at, normal } = homeOf({ at: [10, 120, 30], normal: [0, 1, 0] }, pose, [0, 0, 0]);
    [100, 0, 0].forEach((value, axis) => expect(at[axis]).toBeCloseTo(value, 9));
    [1, 0, 0].forEach((value, axis) => expect(normal[axis]).toBeCloseTo(value, 9));
  });

  it("is not said of what is drawn bent", () => {
    const face = { at: [0, 0, 0] satisfies Vec, normal: [1, 0, 0] satisfies Vec };
    expect(measuredWords([hit("a", face, face), hit("b", face, null)], said)).toBe("drawn bent: not to be measured");
  });
});
