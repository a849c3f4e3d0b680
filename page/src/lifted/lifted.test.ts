import { describe, expect, it } from "vitest";
import { edgesOf, isSilhouette } from "./edges";
import { axes, between, fitting, flat, moved, seenAt } from "./eye";
import { decoded, type Mesh } from "./model";
import { paintsOf, toneOf } from "./quick";

// A cube of 2: 8 corners, 12 triangles, normals outwards.
const cube: Mesh = {
  positions: new Float32Array([0, 0, 0, 2, 0, 0, 2, 2, 0, 0, 2, 0, 0, 0, 2, 2, 0, 2, 2, 2, 2, 0, 2, 2]),
  indices: new Uint32Array([0, 2, 1, 0, 3, 2, 4, 5, 6, 4, 6, 7, 0, 1, 5, 0, 5, 4, 3, 7, 6, 3, 6, 2, 0, 4, 7, 0, 7, 3, 1, 2, 6, 1, 6, 5]),
  runs: [[0, 12, ""]],
};

describe("the edges of a cube", () => {
  it("are twelve, without the diagonals of its faces", () => expect(edgesOf(cube)).toHaveLength(12));

  it("show six as silhouette from a corner, four from straight on", () => {
    const count = (eye: readonly [number, number, number]): number => edgesOf(cube).filter((edge) => isSilhouette(edge, eye)).length;
    expect(count([1, 1, 1])).toBe(6);
    expect(count([0, 0, 1])).toBe(4);
  });
});

describe("the eye", () => {
  const size = { width: 1000, height: 600 };

  it("stands straight over the flat drawing before it rises", () => {
    const view = { scale: 0.3, x: 84, y: 560 };
    const [x, y] = seenAt(flat(view, size), size, [1300, 700, 240]);
    expect([x, y]).toEqual([expect.closeTo(84 + 390, 6), expect.closeTo(560 - 210, 6)]);
  });

  it("sees all it is fitted to", () => {
    const points = [[0, 0, 0], [2600, 1900, 300], [2600, 0, 300], [0, 1900, 0]] as const;
    const eye = fitting(points, -27, 16, size, 30);
    for (const point of points) {
      const [x, y] = seenAt(eye, size, point);
      expect(x >= 29.999 && x <= 970.001 && y >= 29.999 && y <= 570.001).toBe(true);
    }
  });

  it("looks along a right-handed frame of unit axes", () => {
    const { right, up, toEye } = axes({ yaw: -27, pitch: 16 });
    const cross = [right[1] * up[2] - right[2] * up[1], right[2] * up[0] - right[0] * up[2], right[0] * up[1] - right[1] * up[0]];
    cross.forEach((value, axis) => expect(value).toBeCloseTo(toEye[axis] ?? 0, 12));
  });

  it("carries a point along under a dragged hand", () => {
    const eye = fitting([[0, 0, 0], [1000, 1000, 0]], 30, 20, size, 0);
    const before = seenAt(eye, size, [400, 300, 100]);
    const after = seenAt(moved(eye, 40, -25), size, [400, 300, 100]);
    expect([after[0] - before[0], after[1] - before[1]]).toEqual([expect.closeTo(40, 6), expect.closeTo(-25, 6)]);
  });

  it("comes to where it goes", () => {
    const [one, other] = [flat({ scale: 1, x: 0, y: 0 }, size), fitting([[0, 0, 0], [10, 10, 10]], 30, 20, size, 0)];
    expect(between(one, other, 1)).toEqual(other);
  });
});

describe("the model's answer", () => {
  it("is taken apart, and a mesh that is known is not sent again", () => {
    const part = { board: "a", key: "k", matrix: [1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0, 10, 20, 30, 1], grain: [1, 0, 0], size: [1, 1, 0] };
    const pack = (extra: object, buffers: Uint8Array): ArrayBuffer => {
      const text = JSON.stringify({ revision: 1, parts: [{ ...part, ...extra }] });
      const head = new TextEncoder().encode(text.padEnd(Math.ceil(text.length / 4) * 4));
      const data = new Uint8Array(4 + head.length + buffers.length);
      new DataView(data.buffer).setUint32(0, head.length, true);
      data.set(head, 4);
      data.set(buffers, 4 + head.length);
      return data.buffer;
    };
    const vertices = new Uint8Array(new Float32Array([0, 0, 0, 1, 0, 0, 0, 1, 0]).buffer);
    const triangles = new Uint8Array(new Uint32Array([0, 1, 2]).buffer);
    const kept = new Map<string, Mesh>();
    const first = decoded(pack({ vertices: [0, 3], triangles: [36, 1], runs: [[0, 1, "slot"]] }, new Uint8Array([...vertices, ...triangles])), kept);
    expect(first[0]?.mesh.runs).toEqual([[0, 1, "slot"]]);
    expect(first[0]?.centre).toEqual([10.5, 20.5, 30]);
    const again = decoded(pack({ vertices: null, triangles: null, runs: null }, new Uint8Array()), kept);
    expect(again[0]?.mesh).toBe(first[0]?.mesh);
  });
});

describe("the tone of a face while the model is turned", () => {
  const paints = paintsOf({ front: "#f0e4c8", top: "#e9dbbb", side: "#ddcca4", under: "#d0bd92", grain: "#000", section: "#000", hatch: "#000", tinting: "#000" });

  it.each([
    ["front", { x: 0, y: 0, z: 1 }, [0xf0, 0xe4, 0xc8]], ["top", { x: 0, y: 1, z: 0 }, [0xe9, 0xdb, 0xbb]], ["under", { x: 0, y: -1, z: 0 }, [0xd0, 0xbd, 0x92]],
    ["either side", { x: -1, y: 0, z: 0 }, [0xdd, 0xcc, 0xa4]], ["wall", { x: 0, y: 0, z: -1 }, [0xdd, 0xcc, 0xa4]],
  ] as const)("is the drawing's own on the %s", (_, facing, tone) => expect(toneOf(facing, paints)).toEqual(tone));

  it("lies between two where a face looks between them", () => {
    const [red] = toneOf({ x: 0, y: Math.SQRT1_2, z: Math.SQRT1_2 }, paints);
    expect(red).toBeGreaterThan(0xe9);
    expect(red).toBeLessThan(0xf0);
  });
});
