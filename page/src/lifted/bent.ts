/** A part's mesh drawn bent: cut through wherever its bend has a place, so that it can follow, and each corner moved. */
import { Matrix4, Vector3 } from "three";
import { alongLine, bentBy } from "../core/bend";
import type { Bent, Vec } from "../core/shown";
import type { BoardShown } from "../core/wire";
import { corner, type Edge } from "./edges";
import type { Mesh, PartModel } from "./model";

export interface BoardBend {
  readonly places: readonly Bent[];
  readonly factor: number;
  /** By which the board is drawn: along it the places are counted. */
  readonly line: BoardShown["line"];
}

export interface BentMesh {
  readonly mesh: Mesh;
  /** Cut through alike, but not bent. */
  readonly straight: Mesh;
  /** Where a place of the straight one goes, both in the part's own frame. */
  readonly by: (at: Vec) => Vec;
}

type Triangle = readonly [Vec, Vec, Vec];
type Along = (at: Vec) => number;

export function bentMesh(part: Pick<PartModel, "mesh" | "matrix">, { places, factor, line }: BoardBend): BentMesh {
  const toJob = new Matrix4().fromArray([...part.matrix]);
  const toOwn = new Matrix4().extractRotation(toJob).transpose();
  const along: Along = (at) => {
    const { x, y } = new Vector3(...at).applyMatrix4(toJob);
    return alongLine(line, [x, y]);
  };
  const by = (at: Vec): Vec => {
    const { x, y, z } = new Vector3(...bentBy(places, factor, along(at))).applyMatrix4(toOwn);
    return [at[0] + x, at[1] + y, at[2] + z];
  };
  const straight = cutThrough(part.mesh, places.map((place) => place.a), along);
  return { straight, mesh: { ...straight, positions: movedBy(straight.positions, by) }, by };
}

/** Edges of the straight mesh where they go; which faces they stand between stays. */
export function bentEdges(edges: readonly Edge[], by: (at: Vec) => Vec): Edge[] {
  return edges.map((edge) => ({ ...edge, from: by(edge.from), to: by(edge.to) }));
}

function cutThrough(mesh: Mesh, at: readonly number[], along: Along): Mesh {
  const positions: number[] = [];
  const runs: [number, number, string][] = [];
  for (const [first, count, key] of mesh.runs) {
    const from = positions.length / 9;
    for (let triangle = first; triangle < first + count; triangle += 1) {
      const whole: Triangle = [corner(mesh, triangle * 3), corner(mesh, triangle * 3 + 1), corner(mesh, triangle * 3 + 2)];
      const pieces = at.reduce<Triangle[]>((all, a) => all.flatMap((one) => halved(one, a, along)), [whole]);
      for (const piece of pieces) positions.push(...piece.flat());
    }
    runs.push([from, positions.length / 9 - from, key]);
  }
  return { positions: new Float32Array(positions), indices: Uint32Array.from({ length: positions.length / 3 }, (_, index) => index), runs };
}

const TOUCH = 1e-4; // mm: a corner this near a cut lies in it

/** A triangle as it is, or as the pieces on either side of a cut across the board. */
function halved(triangle: Triangle, a: number, along: Along): Triangle[] {
  const far = triangle.map((point) => along(point) - a);
  if (!far.some((value) => value > TOUCH) || !far.some((value) => value < -TOUCH)) return [triangle];
  const sides: [Vec[], Vec[]] = [[], []];
  triangle.forEach((point, index) => {
    const next = (index + 1) % 3;
    const [here, there, end] = [far[index] ?? 0, far[next] ?? 0, triangle[next] ?? point];
    if (here >= -TOUCH) sides[0].push(point);
    if (here <= TOUCH) sides[1].push(point);
    if ((here > TOUCH && there < -TOUCH) || (here < -TOUCH && there > TOUCH)) {
      const met = here < 0 ? crossing(point, end, here, there) : crossing(end, point, there, here); // the same from either side
      sides[0].push(met);
      sides[1].push(met);
    }
  });
  return sides.flatMap(fanned);
}

function crossing(one: Vec, other: Vec, from: number, to: number): Vec {
  const share = from / (from - to);
  return [one[0] + (other[0] - one[0]) * share, one[1] + (other[1] - one[1]) * share, one[2] + (other[2] - one[2]) * share];
}

function fanned([first, ...rest]: readonly Vec[]): Triangle[] {
  return first ? rest.slice(1).flatMap((point, index): Triangle[] => [[first, rest[index] ?? point, point]]) : [];
}

function movedBy(positions: Float32Array, by: (at: Vec) => Vec): Float32Array {
  const moved = new Float32Array(positions.length);
  for (let at = 0; at < positions.length; at += 3) moved.set(by([positions[at] ?? 0, positions[at + 1] ?? 0, positions[at + 2] ?? 0]), at);
  return moved;
}
