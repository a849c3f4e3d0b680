/** A board of 1000 by 24 by 300 in its own frame, standing plumb from (50, 0): its top leans out 10 at the head, nothing at the foot. */
import { describe, expect, it } from "vitest";
import { bentMesh } from "./bent";
import { edgesOf } from "./edges";
import type { Mesh } from "./model";

const corners = [0, 1000].flatMap((x) => [-12, 12].flatMap((y) => [0, 300].map((z) => [x, y, z])));
const board: Mesh = {
  positions: new Float32Array(corners.flat()),
  indices: new Uint32Array([0, 1, 3, 0, 3, 2, 4, 6, 7, 4, 7, 5, 0, 4, 5, 0, 5, 1, 2, 3, 7, 2, 7, 6, 0, 2, 6, 0, 6, 4, 1, 5, 7, 1, 7, 3]),
  runs: [[0, 2, "end"], [2, 10, ""]],
};
const PLUMB = [0, 1, 0, 0, -1, 0, 0, 0, 0, 0, 1, 0, 50, 0, 0, 1];
const LINE: [[number, number], [number, number]] = [[50, 0], [50, 1000]];
const bent = bentMesh({ mesh: board, matrix: PLUMB }, { places: [{ a: 0, by: [0, 0, 0] }, { a: 400, by: [0, 0, 1] }, { a: 1000, by: [0, 0, 10] }], factor: 1, line: LINE });

/** The volume, signed: the sum over each triangle with the origin. */
function volume({ positions, indices }: Mesh): number {
  const at = (index: number): number[] => [...positions.slice((indices[index] ?? 0) * 3, (indices[index] ?? 0) * 3 + 3)];
  let sum = 0;
  for (let index = 0; index < indices.length; index += 3) {
    const [[a = 0, b = 0, c = 0], [d = 0, e = 0, f = 0], [g = 0, h = 0, i = 0]] = [at(index), at(index + 1), at(index + 2)];
    sum += a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g);
  }
  return sum / 6;
}

describe("a mesh that is drawn bent", () => {
  it("is cut through at the places alone, without a gap and without turning a face", () => {
    expect(volume(bent.straight)).toBeCloseTo(volume(board), 3);
    expect(Math.abs(volume(board))).toBeCloseTo(1000 * 24 * 300, 3);
    const edges = edgesOf(bent.straight);
    expect(edges).toHaveLength(16); // of the box 12, the four long ones in two pieces each; none across
  });

  it("leans out by so much at each place, in its own frame as in the job's", () => {
    const far = (x: number): number[] => Array.from({ length: bent.mesh.positions.length / 3 }, (_, index) => index * 3).filter((at) => bent.straight.positions[at] === x)
      .map((at) => (bent.mesh.positions[at + 2] ?? 0) - (bent.straight.positions[at + 2] ?? 0));
    expect(new Set(far(0))).toEqual(new Set([0]));
    expect(new Set(far(400))).toEqual(new Set([1]));
    expect(new Set(far(1000))).toEqual(new Set([10]));
  });

  it("knows which cut each triangle belongs to still", () => {
    const { runs, indices } = bent.mesh;
    expect(runs.map(([, count, key]) => [key, count])).toEqual([["end", 2], ["", indices.length / 3 - 2]]);
  });
});
