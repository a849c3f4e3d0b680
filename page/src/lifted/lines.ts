/** All edges of all parts as few line sets: silhouettes wide, inner edges narrow, what is to come dashed. */
import { Color, Group } from "three";
import { LineMaterial } from "three/addons/lines/LineMaterial.js";
import { LineSegments2 } from "three/addons/lines/LineSegments2.js";
import { LineSegmentsGeometry } from "three/addons/lines/LineSegmentsGeometry.js";
import type { Drawn } from "./drawn";
import { HOME as AT_HOME, type Vec } from "../core/shown";
import { isSilhouette } from "./edges";
import type { Size } from "./eye";
import type { Palette } from "./palette";

const WIDTHS = { silhouette: 1.8, inner: 1, chosen: 2.2, chosenInner: 1.2, toCome: 1.1 } as const;
type Kind = keyof typeof WIDTHS;

const KINDS: readonly Kind[] = ["silhouette", "inner", "chosen", "chosenInner", "toCome"];

export class Lines {
  readonly group = new Group();
  readonly #sets = new Map<Kind, LineSegments2>();
  #drawn = "";

  constructor() {
    for (const kind of KINDS) {
      const dashed = kind === "toCome";
      const material = new LineMaterial({ linewidth: WIDTHS[kind], dashed, dashSize: 22, gapSize: 15, clipping: true });
      const set = new LineSegments2(new LineSegmentsGeometry(), material);
      set.frustumCulled = false;
      set.visible = false;
      this.#sets.set(kind, set);
      this.group.add(set);
    }
  }

  setSize(size: Size): void {
    for (const set of this.#sets.values()) set.material.resolution.set(size.width, size.height);
  }

  /** Sort the edges anew for this eye; nothing is done where neither eye nor parts have changed. */
  set(parts: readonly Drawn[], eye: Vec, palette: Palette): void {
    const drawn = `${eye.join()}|${partsDrawn(parts, palette)}`;
    if (drawn === this.#drawn) return;
    this.#drawn = drawn;
    const found = new Map<Kind, number[]>(KINDS.map((kind) => [kind, []]));
    for (const part of parts) {
      if (part.state.look === "hidden") continue;
      for (const edge of part.edges) {
        const silhouette = isSilhouette(edge, eye);
        if (silhouette || (part.state.look === "solid" && !edge.smooth)) found.get(kindOf(part, silhouette))?.push(...edge.from, ...edge.to);
      }
    }
    for (const [kind, positions] of found) this.#fill(kind, positions, palette);
  }

  #fill(kind: Kind, positions: readonly number[], palette: Palette): void {
    const set = this.#sets.get(kind);
    if (!set) return;
    set.visible = positions.length > 0;
    if (!set.visible) return;
    set.geometry.dispose();
    set.geometry = new LineSegmentsGeometry();
    set.geometry.setPositions([...positions]);
    if (kind === "toCome") set.computeLineDistances();
    set.material.color = new Color(kind === "toCome" ? palette.thin : kind.startsWith("chosen") ? palette.blue : palette.ink);
  }

  dispose(): void {
    for (const set of this.#sets.values()) {
      set.geometry.dispose();
      set.material.dispose();
    }
  }
}

/** All that lines depend on but the eye, as one word. */
export function partsDrawn(parts: readonly Drawn[], palette: Palette): string {
  const one = ({ model, shape, state }: Drawn): string => `${model.key}${model.matrix.join()}${state.look}${String(state.chosen)}${state.tint ?? ""}${state.away.join()}${state.pose === AT_HOME ? "" : state.pose.join()}${shape}`;
  return `${palette.ink}|${parts.map(one).join("|")}`;
}

function kindOf(part: Drawn, silhouette: boolean): Kind {
  if (part.state.look === "to come") return "toCome";
  if (part.state.chosen) return silhouette ? "chosen" : "chosenInner";
  return silhouette ? "silhouette" : "inner";
}
