/** The edges of a mesh with the normals of the faces beside them, so that silhouettes can be told from inner edges. */
import type { Vec } from "../core/shown";
import type { Mesh } from "./model";

export interface Edge {
  readonly from: Vec;
  readonly to: Vec;
  readonly one: Vec;
  /** Of the face on the other side; the same as `one` where there is none. */
  readonly other: Vec;
  /** Between two facets of a round: seen as a silhouette only. */
  readonly smooth: boolean;
}

const SHARP = 0.9995; // cosine: faces that turn less than about 2 degrees have no edge between them
const ROUND = 0.94; // and those that turn less than about 20 are facets of a round
const NONE: ReadonlySet<string> = new Set();
const GRID = 100; // vertices nearer than a hundredth of a mm are one

export function normal(p: Vec, q: Vec, r: Vec): Vec {
  const [ax, ay, az] = [q[0] - p[0], q[1] - p[1], q[2] - p[2]];
  const [bx, by, bz] = [r[0] - p[0], r[1] - p[1], r[2] - p[2]];
  const [x, y, z] = [ay * bz - az * by, az * bx - ax * bz, ax * by - ay * bx];
  const long = Math.hypot(x, y, z) || 1;
  return [x / long, y / long, z / long];
}

export function corner(mesh: Mesh, index: number): Vec {
  const at = (mesh.indices[index] ?? 0) * 3;
  return [mesh.positions[at] ?? 0, mesh.positions[at + 1] ?? 0, mesh.positions[at + 2] ?? 0];
}

/** @param closed keys of cuts that are closed: of them nothing but their rims is an edge. */
export function edgesOf(mesh: Mesh, closed: ReadonlySet<string> = NONE): Edge[] {
  const open = new Map<string, { from: Vec; to: Vec; one: Vec }>();
  const found: Edge[] = [];
  const name = (p: Vec): string => p.map((value) => Math.round(value * GRID)).join(",");
  const left = mesh.runs.filter(([, , cut]) => closed.has(cut));
  for (let at = 0; at < mesh.indices.length; at += 3) {
    if (left.some(([first, count]) => at / 3 >= first && at / 3 < first + count)) continue;
    const points: [Vec, Vec, Vec] = [corner(mesh, at), corner(mesh, at + 1), corner(mesh, at + 2)];
    const facing = normal(...points);
    points.forEach((from, side) => {
      const to = points[(side + 1) % 3] ?? from;
      const [key, back] = [`${name(from)};${name(to)}`, `${name(to)};${name(from)}`];
      const met = open.get(back);
      if (met) {
        open.delete(back);
        const turn = met.one[0] * facing[0] + met.one[1] * facing[1] + met.one[2] * facing[2];
        if (turn < SHARP) found.push({ ...met, other: facing, smooth: turn > ROUND });
      } else open.set(key, { from, to, one: facing });
    });
  }
  for (const edge of open.values()) found.push({ ...edge, other: edge.one, smooth: false });
  return found;
}

/** Whether an edge bounds what is seen: one face looks at the eye, the other away. `eye` points from the piece to the eye. */
export function isSilhouette(edge: Edge, eye: Vec): boolean {
  const facing = (face: Vec): boolean => face[0] * eye[0] + face[1] * eye[1] + face[2] * eye[2] > 1e-6;
  return facing(edge.one) !== facing(edge.other);
}
