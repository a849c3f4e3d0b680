/** How the model is looked at while the drawing is lifted: apart, alone, cut open, measured. None of it is saved. */
import type { Vec } from "./edges";
import type { PartState } from "./drawn";
import type { Hit } from "./scene";

export type Axis = "x" | "y" | "z";

export interface Pose {
  /** From where it is looked at, degrees. */
  readonly yaw: number;
  readonly pitch: number;
  /** How the piece lies or stands, and from where it is seen. */
  readonly says: string;
  stateOf(board: string): Omit<PartState, "chosen">;
}

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
  /** What a light wants shown in place of the piece as it stands. */
  pose = $state.raw<Pose | null>(null);
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

/** What two picked faces say: how far apart, if parallel; else their angle and the distance of the places. */
export function measuredWords(hits: readonly Hit[], shown: (mm: number) => string): string {
  const [one, other] = hits;
  if (!one) return "press on a face, then on another";
  if (!other) return "now on another face";
  const turn = dot(one.normal, other.normal);
  const away: Vec = [other.at[0] - one.at[0], other.at[1] - one.at[1], other.at[2] - one.at[2]];
  if (Math.abs(Math.abs(turn) - 1) < 1e-6) return `${shown(Math.abs(dot(away, one.normal)))} between the faces`;
  const angle = (Math.acos(Math.max(-1, Math.min(1, Math.abs(turn)))) * 180) / Math.PI;
  return `${angle.toFixed(2)}° between the faces; ${shown(Math.hypot(...away))} between the places`;
}

const dot = (one: Vec, other: Vec): number => one[0] * other[0] + one[1] * other[1] + one[2] * other[2];
