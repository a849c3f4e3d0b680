/** How the model is looked at while the drawing is lifted: apart, alone, cut open, measured. None of it is saved. */
import type { Vec } from "../core/shown";
import type { Hit } from "./scene";

export type Axis = "x" | "y" | "z";

class Lifting {
  /** The model is on the sheet, or on its way. */
  shown = $state(false);
  /** 0 together, 1 apart. */
  apart = $state(0);
  alone = $state(false);
  section = $state<{ axis: Axis; share: number } | null>(null);
  measuring = $state(false);
  measured = $state.raw<readonly Hit[]>([]);
  over = $state.raw<Hit | null>(null);
  picked = $state.raw<Hit | null>(null);
  turned = $state.raw({ yaw: -27, pitch: 16 });

  reset(): void {
    this.apart = 0;
    this.alone = false;
    this.section = null;
    this.measuring = false;
    this.measured = [];
    this.over = null;
    this.picked = null;
  }
}

export const lifting = new Lifting();

export const STANDING = { yaw: -27, pitch: 16 } as const;

/**
 * What two picked faces say of the piece as it stands together, however far apart it is drawn: how far apart they are, if
 * parallel; else their angle and the distance of the places.
 */
export function measuredWords(hits: readonly Hit[], shown: (mm: number) => string): string {
  const [one, other] = hits;
  if (!one) return "press on a face, then on another";
  if (!other) return "now on another face";
  const [from, to] = [one.home, other.home];
  if (!from || !to) return "drawn bent: not to be measured";
  const turn = dot(from.normal, to.normal);
  const away: Vec = [to.at[0] - from.at[0], to.at[1] - from.at[1], to.at[2] - from.at[2]];
  if (Math.abs(Math.abs(turn) - 1) < 1e-6) return `${shown(Math.abs(dot(away, from.normal)))} between the faces`;
  const angle = (Math.acos(Math.max(-1, Math.min(1, Math.abs(turn)))) * 180) / Math.PI;
  return `${angle.toFixed(2)}° between the faces; ${shown(Math.hypot(...away))} between the places`;
}

const dot = (one: Vec, other: Vec): number => one[0] * other[0] + one[1] * other[1] + one[2] * other[2];
