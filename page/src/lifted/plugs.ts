/** Plugs flush in the faces of a part: a disc of its own wood over each hole, the hole's rim around it. */
import { BufferAttribute, BufferGeometry, Matrix4, Vector3 } from "three";
import type { Vec } from "../core/shown";

/** As the server has it; places and directions are the room's. */
export interface Plug {
  readonly board: string;
  /** Key of the cut that its hole is of. */
  readonly cut: string;
  readonly at: Vec;
  /** Along the hole, and square to the face that it lies in: both out of the wood. */
  readonly out: Vec;
  readonly normal: Vec;
  readonly wide: number;
}

const SIDES = 48;
const OVER = 1.01; // so that nothing of the hole is seen between its own corners and the disc's

/** The disc's rim in the face: an ellipse where the hole stands aslant. Anticlockwise seen from outside. */
export function rimOf({ at, out, normal, wide }: Plug): Vec[] {
  const [axis, facing, middle] = [new Vector3(...out), new Vector3(...normal), new Vector3(...at)];
  const aside = Math.abs(axis.x) < 0.9 ? new Vector3(1, 0, 0) : new Vector3(0, 1, 0);
  const u = aside.cross(axis).setLength((OVER * wide) / 2);
  const v = axis.clone().cross(u);
  return Array.from({ length: SIDES }, (_, side) => {
    const turn = (2 * Math.PI * side) / SIDES;
    const off = u.clone().multiplyScalar(Math.cos(turn)).addScaledVector(v, Math.sin(turn));
    return off.addScaledVector(axis, -off.dot(facing) / axis.dot(facing)).add(middle).toArray();
  });
}

/** The discs of a part's plugs, in its own frame, so that the grain goes on over them. */
export function discsOf(plugs: readonly Plug[], matrix: Matrix4): BufferGeometry {
  const home = matrix.clone().invert();
  const [positions, normals]: [number[], number[]] = [[], []];
  for (const plug of plugs) {
    const own = (point: Vec): Vec => new Vector3(...point).applyMatrix4(home).toArray();
    const [middle, facing] = [own(plug.at), new Vector3(...plug.normal).transformDirection(home).toArray()];
    const rim = rimOf(plug).map(own);
    rim.forEach((point, side) => {
      positions.push(...middle, ...point, ...(rim[(side + 1) % SIDES] ?? point));
      normals.push(...facing, ...facing, ...facing);
    });
  }
  const geometry = new BufferGeometry();
  geometry.setAttribute("position", new BufferAttribute(new Float32Array(positions), 3));
  geometry.setAttribute("normal", new BufferAttribute(new Float32Array(normals), 3));
  return geometry;
}
