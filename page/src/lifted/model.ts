/** The parts' meshes as the server built them; those known by their key are not fetched again. */
import { server } from "../core/network/client";
import type { ModelHead } from "../core/wire";

export interface Mesh {
  readonly positions: Float32Array;
  readonly indices: Uint32Array;
  /** First triangle, count of triangles, key of the cut they belong to; "" for the board itself. */
  readonly runs: readonly (readonly [number, number, string])[];
}

export interface PartModel {
  readonly board: string;
  readonly key: string;
  readonly matrix: readonly number[];
  readonly centre: readonly [number, number, number];
  readonly size: readonly [number, number, number];
  readonly mesh: Mesh;
}

const kept = new Map<string, Mesh>();

export async function fetchModel(revision: number): Promise<PartModel[]> {
  return decoded(await server.model([...kept.keys()], revision), kept);
}

/** Take an answer apart: 4 bytes of the head's length, the head, the buffers. */
export function decoded(data: ArrayBuffer, meshes: Map<string, Mesh>): PartModel[] {
  const long = new DataView(data).getUint32(0, true);
  const head: ModelHead = JSON.parse(new TextDecoder().decode(new Uint8Array(data, 4, long)));
  const body = data.slice(4 + long);
  const parts: PartModel[] = [];
  for (const part of head.parts) {
    if (part.vertices && part.triangles && part.runs) {
      meshes.set(part.key, {
        positions: new Float32Array(body, part.vertices[0], part.vertices[1] * 3),
        indices: new Uint32Array(body, part.triangles[0], part.triangles[1] * 3),
        runs: part.runs,
      });
    }
    const mesh = meshes.get(part.key);
    if (mesh) parts.push({ board: part.board, key: part.key, matrix: part.matrix, centre: centreOf(mesh, part.matrix), size: part.size, mesh });
  }
  const wanted = new Set(parts.map((part) => part.key));
  for (const key of meshes.keys()) if (!wanted.has(key)) meshes.delete(key);
  return parts;
}

/** The middle of a mesh's corners in the world: where its name stands and from where it moves apart. */
function centreOf(mesh: Mesh, matrix: readonly number[]): [number, number, number] {
  const low = [Infinity, Infinity, Infinity];
  const high = [-Infinity, -Infinity, -Infinity];
  mesh.positions.forEach((value, index) => {
    low[index % 3] = Math.min(low[index % 3] ?? value, value);
    high[index % 3] = Math.max(high[index % 3] ?? value, value);
  });
  const [x = 0, y = 0, z = 0] = low.map((value, axis) => (value + (high[axis] ?? value)) / 2);
  const along = (row: number): number => (matrix[row] ?? 0) * x + (matrix[row + 4] ?? 0) * y + (matrix[row + 8] ?? 0) * z + (matrix[row + 12] ?? 0);
  return [along(0), along(1), along(2)];
}

/** Half of what a part covers across and up: its own axis is its matrix's first column. */
export function reach({ matrix: [x = 1, y = 0], size }: PartModel): [number, number] {
  const long = Math.max(...size);
  return [Math.abs(x * long) / 2 + 12, Math.abs(y * long) / 2 + 12];
}
