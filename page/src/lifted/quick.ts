/** The edges while the model is turned by hand: lines of one px, the same from every side, so that no frame waits for them. */
import { BufferAttribute, BufferGeometry, Group, LineBasicMaterial, LineDashedMaterial, LineSegments } from "three";
import type { Drawn } from "./drawn";
import type { Palette } from "./palette";

type Kind = "ink" | "blue" | "toCome";

export class QuickLines {
  readonly group = new Group();
  readonly #materials = { ink: new LineBasicMaterial(), blue: new LineBasicMaterial(), toCome: new LineDashedMaterial({ dashSize: 22, gapSize: 15 }) };
  #drawn = "";

  /** Nothing is done where no part has changed. */
  set(parts: readonly Drawn[], drawn: string, palette: Palette): void {
    if (drawn === this.#drawn) return;
    this.#drawn = drawn;
    this.#clear();
    const found: Record<Kind, number[]> = { ink: [], blue: [], toCome: [] };
    for (const part of parts) {
      if (part.state.look === "hidden") continue;
      const kind: Kind = part.state.look === "to come" ? "toCome" : part.state.chosen ? "blue" : "ink";
      for (const edge of part.edges) if (!edge.smooth) found[kind].push(...edge.from, ...edge.to);
    }
    this.#materials.ink.color.set(palette.ink);
    this.#materials.blue.color.set(palette.blue);
    this.#materials.toCome.color.set(palette.thin);
    for (const kind of ["ink", "blue", "toCome"] as const) this.#add(kind, found[kind]);
  }

  #add(kind: Kind, positions: readonly number[]): void {
    if (positions.length === 0) return;
    const geometry = new BufferGeometry();
    geometry.setAttribute("position", new BufferAttribute(new Float32Array(positions), 3));
    const lines = new LineSegments(geometry, this.#materials[kind]);
    if (kind === "toCome") lines.computeLineDistances();
    lines.frustumCulled = false;
    this.group.add(lines);
  }

  #clear(): void {
    for (const child of this.group.children) if (child instanceof LineSegments) child.geometry.dispose();
    this.group.clear();
  }

  dispose(): void {
    this.#clear();
    for (const material of Object.values(this.#materials)) material.dispose();
  }
}
