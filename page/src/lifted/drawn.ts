/** One part as three.js holds it: its body, its edges in the world, and which cut each triangle belongs to. */
import { BufferAttribute, BufferGeometry, Matrix4, Mesh as Body, type ShaderMaterial, Vector3 } from "three";
import { HOME as AT_HOME, type Matrix, type Vec } from "../core/shown";
import { bentEdges, bentMesh, type BoardBend } from "./bent";
import { edgesOf, normal, corner, type Edge } from "./edges";
import type { Mesh, PartModel } from "./model";
import type { Palette } from "./palette";
import { discsOf, type Plug } from "./plugs";
import { paint, tinted, woodMaterial, type Tones } from "./wood";

export interface PartState {
  readonly look: "solid" | "to come" | "hidden";
  readonly chosen: boolean;
  /** mm away from where it belongs or is posed */
  readonly away: Vec;
  readonly pose: Matrix;
  /** Share of a tint, null for none. */
  readonly tint: number | null;
  readonly bend: BoardBend | null;
}

export const HOME: PartState = { look: "solid", chosen: false, away: [0, 0, 0], pose: AT_HOME, tint: null, bend: null };

export class Drawn {
  readonly body: Body<BufferGeometry, ShaderMaterial>;
  #discs: BufferGeometry | null = null;
  #own: readonly Edge[];
  #mesh: Mesh;
  #edges: readonly Edge[] = [];
  state: PartState = HOME;
  /** Rises whenever it is bent otherwise. */
  shape = 0;

  constructor(
    public model: PartModel,
    palette: Palette,
  ) {
    const seed = [...model.board].reduce((sum, letter) => (sum * 31 + letter.charCodeAt(0)) % 997, 7);
    this.body = new Body(flatGeometry(model.mesh), woodMaterial(palette.wood, seed));
    this.body.name = model.board;
    this.body.matrixAutoUpdate = false;
    this.#mesh = model.mesh;
    this.#own = edgesOf(model.mesh);
    this.place(model);
  }

  place(model: PartModel): void {
    this.model = model;
    const matrix = new Matrix4().fromArray([...this.state.pose]).multiply(new Matrix4().fromArray([...model.matrix]));
    matrix.setPosition(new Vector3().setFromMatrixPosition(matrix).add(new Vector3(...this.state.away)));
    this.body.matrix.copy(matrix);
    this.body.matrixWorldNeedsUpdate = true;
    this.body.updateWorldMatrix(true, false); // a look at it must meet it before it is first painted
    const point = (at: Vec): Vec => new Vector3(...at).applyMatrix4(matrix).toArray();
    const direction = (at: Vec): Vec => new Vector3(...at).transformDirection(matrix).toArray();
    this.#edges = this.#own.map((edge) => ({ from: point(edge.from), to: point(edge.to), one: direction(edge.one), other: direction(edge.other), smooth: edge.smooth }));
  }

  get edges(): readonly Edge[] {
    return this.#edges;
  }

  /** What has come of it: another place, another look, or nothing. */
  setState(state: PartState, palette: Palette): "moved" | "changed" | "same" {
    const bent = !sameBend(state.bend, this.state.bend);
    const went = bent || differ(state.away, this.state.away) || differ(state.pose, this.state.pose);
    const painted = state.chosen !== this.state.chosen || state.tint !== this.state.tint;
    const changed = painted || state.look !== this.state.look;
    this.state = state;
    this.body.visible = state.look === "solid";
    if (bent) this.#shape(state.bend);
    if (went) this.place(this.model);
    if (painted) this.repaint(palette);
    return went ? "moved" : changed ? "changed" : "same";
  }

  /** The mesh as it is, or as a bend has it. */
  #shape(bend: BoardBend | null): void {
    this.shape += 1;
    const bent = bend ? bentMesh(this.model, bend) : null;
    this.#mesh = bent?.mesh ?? this.model.mesh;
    this.#own = bent ? bentEdges(edgesOf(bent.straight), bent.by) : edgesOf(this.model.mesh);
    this.body.geometry.dispose();
    this.body.geometry = flatGeometry(this.#mesh);
  }

  /** Close the holes of these plugs where the part stands, until it is placed elsewhere; none opens all again. */
  plug(plugs: readonly Plug[]): void {
    if (plugs.length === 0 && !this.#discs) return;
    this.#discs?.dispose();
    this.body.clear();
    this.#discs = plugs.length > 0 ? discsOf(plugs, this.body.matrix) : null;
    if (this.#discs) this.body.add(new Body(this.#discs, this.body.material));
    this.#own = edgesOf(this.#mesh, new Set(plugs.map((plug) => plug.cut)));
    this.shape += 1;
    this.place(this.model);
  }

  repaint(palette: Palette): void {
    paint(this.body.material, this.tones(palette), this.state.tint);
  }

  tones(palette: Palette): Tones {
    if (this.state.chosen) return palette.chosen;
    return this.state.tint === null ? palette.wood : tinted(palette.wood, palette.tint, this.state.tint);
  }

  cutAt(triangle: number): string {
    return this.#mesh.runs.find(([first, count]) => triangle >= first && triangle < first + count)?.[2] ?? "";
  }

  dispose(): void {
    this.#discs?.dispose();
    this.body.geometry.dispose();
    this.body.material.dispose();
  }
}

/** A place and the way its face looks, as they are drawn, where they belong in the piece. */
export function homeOf(face: { readonly at: Vec; readonly normal: Vec }, pose: readonly number[], away: Vec): { at: Vec; normal: Vec } {
  const back = new Matrix4().fromArray([...pose]).invert();
  const at = new Vector3(...face.at).sub(new Vector3(...away)).applyMatrix4(back);
  return { at: at.toArray(), normal: new Vector3(...face.normal).transformDirection(back).toArray() };
}

const differ = (one: readonly number[], other: readonly number[]): boolean => one.some((value, index) => value !== other[index]);

function sameBend(one: BoardBend | null, other: BoardBend | null): boolean {
  return one === other || (one !== null && other !== null && one.factor === other.factor && one.places === other.places && one.line === other.line);
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
