/** The room as far as it is known: wall, its ends, floor and ceiling as plain surfaces, and the piece's shadow on the wall. */
import { DoubleSide, FrontSide, Group, Mesh, MeshBasicMaterial } from "three";
import { quad, shadow } from "./background";
import type { PartModel } from "./model";
import { tinted } from "./wood";
import type { Palette } from "./palette";

const BEHIND = -1; // mm: the wall lies just behind the boards' wall edges
const OUT = 1500; // mm: of the floor before the piece, and of a wall whose end nobody knows beside it
const FAR = 40_000; // mm: such a wall goes on beyond the picture

export interface Known {
  /** Of the piece: left, foot, right, head, and how far it stands out of the wall. */
  readonly piece: readonly [number, number, number, number, number];
  readonly left: number | null;
  readonly right: number | null;
  readonly ceiling: number | null;
  readonly floor: boolean;
}

export class Room {
  readonly group = new Group();
  readonly #wall = new MeshBasicMaterial({ side: DoubleSide, depthWrite: false });
  /** Seen from inside alone, so that no wall stands between the eye and the piece. */
  readonly #beside = new MeshBasicMaterial({ side: FrontSide });
  readonly #floor = new MeshBasicMaterial({ side: FrontSide });
  readonly #shade = new MeshBasicMaterial({ side: DoubleSide, depthWrite: false });

  set({ piece, left, right, ceiling, floor }: Known, parts: readonly PartModel[], palette: Palette): void {
    this.#clear();
    const [x0, x1] = [left ?? piece[0] - FAR, right ?? piece[2] + FAR];
    const [y0, y1] = [floor ? 0 : piece[1] - FAR, ceiling ?? piece[3] + FAR];
    const out = piece[4] + OUT;
    this.group.add(quad([[x0, y0, BEHIND], [x1, y0, BEHIND], [x1, y1, BEHIND], [x0, y1, BEHIND]], this.#wall, -4));
    if (floor) this.group.add(quad([[x0, 0, BEHIND], [x0, 0, out], [x1, 0, out], [x1, 0, BEHIND]], this.#floor, -3));
    if (ceiling !== null) this.group.add(quad([[x0, y1, BEHIND], [x1, y1, BEHIND], [x1, y1, out], [x0, y1, out]], this.#beside, -3));
    if (left !== null) this.group.add(quad([[x0, y0, BEHIND], [x0, y1, BEHIND], [x0, y1, out], [x0, y0, out]], this.#beside, -3));
    if (right !== null) this.group.add(quad([[x1, y0, BEHIND], [x1, y0, out], [x1, y1, out], [x1, y1, BEHIND]], this.#beside, -3));
    for (const part of parts) this.group.add(shadow(part, this.#shade));
    this.repaint(palette);
  }

  repaint(palette: Palette): void {
    this.#wall.color.set(palette.sheet);
    this.#floor.color.set(palette.desk);
    this.#beside.color.set(tinted(palette.wood, palette.sheet, 0.6).under);
    this.#shade.color.set(palette.shade);
  }

  #clear(): void {
    for (const child of this.group.children) if (child instanceof Mesh) child.geometry.dispose();
    this.group.clear();
  }

  dispose(): void {
    this.#clear();
    for (const material of [this.#wall, this.#beside, this.#floor, this.#shade]) material.dispose();
  }
}
