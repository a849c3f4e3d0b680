/** One part as three.js holds it: its body, its edges in the world, and which cut each triangle belongs to. */
import { BufferAttribute, BufferGeometry, Matrix4, Mesh as Body, type ShaderMaterial, Vector3 } from "three";
import { edgesOf, normal, corner, type Edge, type Vec } from "./edges";
import type { Mesh, PartModel } from "./model";
import type { Palette } from "./palette";
import { paint, woodMaterial } from "./wood";

export interface PartState {
  readonly look: "solid" | "to come" | "hidden";
  readonly chosen: boolean;
  /** mm away from where it belongs */
  readonly away: Vec;
}

export const HOME: PartState = { look: "solid", chosen: false, away: [0, 0, 0] };

export class Drawn {
  readonly body: Body<BufferGeometry, ShaderMaterial>;
  readonly #own: readonly Edge[];
  #edges: readonly Edge[] = [];
  state: PartState = HOME;

  constructor(
    public model: PartModel,
    palette: Palette,
  ) {
    const seed = [...model.board].reduce((sum, letter) => (sum * 31 + letter.charCodeAt(0)) % 997, 7);
    this.body = new Body(flatGeometry(model.mesh), woodMaterial(palette.wood, seed));
    this.body.name = model.board;
    this.body.matrixAutoUpdate = false;
    this.#own = edgesOf(model.mesh);
    this.place(model);
  }

  place(model: PartModel): void {
    this.model = model;
    const matrix = new Matrix4().fromArray([...model.matrix]);
    matrix.setPosition(new Vector3().setFromMatrixPosition(matrix).add(new Vector3(...this.state.away)));
    this.body.matrix.copy(matrix);
    this.body.matrixWorldNeedsUpdate = true;
    const point = (at: Vec): Vec => new Vector3(...at).applyMatrix4(matrix).toArray();
    const direction = (at: Vec): Vec => new Vector3(...at).transformDirection(matrix).toArray();
    this.#edges = this.#own.map((edge) => ({ from: point(edge.from), to: point(edge.to), one: direction(edge.one), other: direction(edge.other), smooth: edge.smooth }));
  }

  get edges(): readonly Edge[] {
    return this.#edges;
  }

  /** What has come of it: another place, another look, or nothing. */
  setState(state: PartState, palette: Palette): "moved" | "changed" | "same" {
    const went = state.away.some((value, axis) => value !== this.state.away[axis]);
    const painted = state.chosen !== this.state.chosen;
    const changed = painted || state.look !== this.state.look;
    this.state = state;
    this.body.visible = state.look === "solid";
    if (went) this.place(this.model);
    if (painted) this.repaint(palette);
    return went ? "moved" : changed ? "changed" : "same";
  }

  repaint(palette: Palette): void {
    paint(this.body.material, this.state.chosen ? palette.chosen : palette.wood);
  }

  cutAt(triangle: number): string {
    return this.model.mesh.runs.find(([first, count]) => triangle >= first && triangle < first + count)?.[2] ?? "";
  }

  dispose(): void {
    this.body.geometry.dispose();
    this.body.material.dispose();
  }
}

/** Every triangle with corners of its own, so that each face has one normal. */
function flatGeometry(mesh: Mesh): BufferGeometry {
  const positions = new Float32Array(mesh.indices.length * 3);
  const normals = new Float32Array(mesh.indices.length * 3);
  for (let at = 0; at < mesh.indices.length; at += 3) {
    const points: [Vec, Vec, Vec] = [corner(mesh, at), corner(mesh, at + 1), corner(mesh, at + 2)];
    const facing = normal(...points);
    points.forEach((point, index) => {
      positions.set(point, (at + index) * 3);
      normals.set(facing, (at + index) * 3);
    });
  }
  const geometry = new BufferGeometry();
  geometry.setAttribute("position", new BufferAttribute(positions, 3));
  geometry.setAttribute("normal", new BufferAttribute(normals, 3));
  geometry.computeBoundingSphere();
  return geometry;
}
