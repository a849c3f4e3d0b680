/** Wall, studs, floor and the piece's shadow on its wall: all quiet. */
import { BufferAttribute, BufferGeometry, DoubleSide, Group, Line, LineBasicMaterial, LineDashedMaterial, LineSegments, Matrix4, Mesh, MeshBasicMaterial, ShapeUtils, Vector2, Vector3 } from "three";
import type { PartModel } from "./model";
import type { Palette } from "./palette";
import { hull } from "./hull";

const BEHIND = -1; // mm: the wall lies just behind the boards' wall edges
const LIGHT: readonly [number, number] = [0.3, -0.42]; // how far a shadow falls right and down, a mm of depth
const BEFORE = 60;

export class Background {
  readonly group = new Group();
  readonly shadows = new Group();
  readonly #line = new LineBasicMaterial();
  readonly #dash = new LineDashedMaterial({ dashSize: 24, gapSize: 14 });
  readonly #floor = new MeshBasicMaterial({ side: DoubleSide, depthWrite: false });
  readonly #shade = new MeshBasicMaterial({ side: DoubleSide, depthWrite: false });

  set(extent: readonly [number, number, number, number], studs: readonly number[], depth: number, palette: Palette, parts: readonly PartModel[]): void {
    this.#clear();
    const [left, , right, head] = extent;
    const out = depth + BEFORE;
    this.#loop([[left, 0, BEHIND], [right, 0, BEHIND], [right, head, BEHIND], [left, head, BEHIND]]);
    this.#loop([[left, 0, BEHIND], [right, 0, BEHIND], [right, 0, out], [left, 0, out]]);
    this.group.add(quad([[left, -0.5, BEHIND], [right, -0.5, BEHIND], [right, -0.5, out], [left, -0.5, out]], this.#floor, -2));
    const ends = studs.flatMap((at) => [at, 0, BEHIND, at, head, BEHIND]);
    const dashed = new LineSegments(geometry(ends), this.#dash);
    dashed.computeLineDistances();
    this.group.add(dashed, this.shadows);
    for (const part of parts) this.shadows.add(shadow(part, this.#shade));
    this.repaint(palette);
  }

  #loop(corners: readonly (readonly [number, number, number])[]): void {
    this.group.add(new Line(geometry([...corners, ...corners.slice(0, 1)].flat()), this.#line));
  }

  repaint(palette: Palette): void {
    this.#line.color.set(palette.thin);
    this.#dash.color.set(palette.thin);
    this.#floor.color.set(palette.desk);
    this.#shade.color.set(palette.shade);
  }

  #clear(): void {
    for (const child of [...this.group.children, ...this.shadows.children]) {
      if (child instanceof Mesh || child instanceof Line) child.geometry.dispose();
    }
    this.shadows.clear();
    this.group.clear();
  }

  dispose(): void {
    this.#clear();
    for (const material of [this.#line, this.#dash, this.#floor, this.#shade]) material.dispose();
  }
}

export function geometry(positions: readonly number[], index?: readonly number[]): BufferGeometry {
  const made = new BufferGeometry();
  made.setAttribute("position", new BufferAttribute(new Float32Array(positions), 3));
  if (index) made.setIndex([...index]);
  return made;
}

export function quad(corners: readonly (readonly [number, number, number])[], material: MeshBasicMaterial, order: number): Mesh {
  const mesh = new Mesh(geometry(corners.flat(), [0, 1, 2, 0, 2, 3]), material);
  mesh.renderOrder = order;
  return mesh;
}

/** The shadow of a part's box on the wall, light falling from the upper left in front. */
export function shadow(part: PartModel, material: MeshBasicMaterial): Mesh {
  const matrix = new Matrix4().fromArray([...part.matrix]);
  const points: Vector2[] = [];
  const { positions } = part.mesh;
  for (let at = 0; at < positions.length; at += 3) {
    const point = new Vector3(positions[at], positions[at + 1], positions[at + 2]).applyMatrix4(matrix);
    points.push(new Vector2(point.x + LIGHT[0] * point.z, point.y + LIGHT[1] * point.z));
  }
  const outline = hull(points);
  const faces = ShapeUtils.triangulateShape(outline, []);
  const mesh = new Mesh(geometry(outline.flatMap((point) => [point.x, Math.max(0, point.y), BEHIND + 0.3]), faces.flat()), material);
  mesh.renderOrder = -1;
  return mesh;
}
