/** How a light has the boards and joints drawn. Drawing and model obey it, and know nothing else of the light. */
import type { Pair } from "./wire";

export type PairKey = `${string}\n${string}`;
export type Vec = readonly [number, number, number];
/** 16 numbers, column by column, in the job's frame: x right, y up, z out of the wall; mm. */
export type Matrix = readonly number[];

/** What is not said of a board or joint is drawn as always. */
export interface Look {
  /** Ochre and hatching over the wood, the more of both the nearer the share is to 1. `says` is its figure: a colour never stands alone. */
  readonly tint?: { readonly share: number; readonly says: string };
  /** Not of this step or sheet: an outline, dashed. */
  readonly faint?: boolean;
  /** Said before the name: of the panel, the set-up, the step it belongs to. */
  readonly number?: number;
  /** Said behind the name. */
  readonly label?: string;
  /** Whose words keep their place where there is no room for all: 1 before 2, all others after. */
  readonly rank?: number;
}

/** How far places of a board have moved, drawn `factor` times. */
export interface Bend {
  readonly factor: number;
  /** By board: `a` along the line it is drawn by, from its start, mm; `by` in the job's frame, mm. Straight between two, constant beyond the last. */
  readonly of: ReadonlyMap<string, readonly Bent[]>;
}

export interface Bent {
  readonly a: number;
  readonly by: Vec;
}

/** What the colours mean, in a line at the drawing's foot. */
export interface Legend {
  readonly says: string;
  /** Shares with their words, the least first. */
  readonly tints?: readonly { readonly share: number; readonly says: string }[];
}

export interface Shown {
  readonly boards: ReadonlyMap<string, Look>;
  readonly joints: ReadonlyMap<PairKey, Look>;
  readonly bend?: Bend;
  /** From where each board belongs to where it is; one that has no place is not there. Such a piece is drawn lifted. */
  readonly pose?: ReadonlyMap<string, Matrix>;
  /** From where a pose is looked at, degrees: to the right of straight on, above level. */
  readonly eye?: { readonly yaw: number; readonly pitch: number };
  readonly legend?: Legend;
  /** How it stands, in the title block: "together, step 3". */
  readonly stands?: string;
}

export const HOME: Matrix = [1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1];

export function pairKey(pair: Pair): PairKey {
  return `${pair[0]}\n${pair[1]}`;
}

export function shifted([x, y, z]: Vec): Matrix {
  return [...HOME.slice(0, 12), x, y, z, 1];
}

/** A place after a matrix. */
export function placed(matrix: Matrix, [x, y, z]: Vec): Vec {
  const row = (at: number): number => (matrix[at] ?? 0) * x + (matrix[at + 4] ?? 0) * y + (matrix[at + 8] ?? 0) * z + (matrix[at + 12] ?? 0);
  return [row(0), row(1), row(2)];
}

/** What is said of a board or a joint beside its name; "" for nothing. */
export function wordsOf(look: Look | undefined): string {
  return [look?.label, look?.tint?.says].filter((word) => word).join(", ");
}

/** A name with what is said of it: "3 shelf 2: 62 %"; of a joint, which has no name on the drawing, that alone. */
export function named(name: string, look: Look | undefined): string {
  const [number, words] = [look?.number === undefined ? "" : String(look.number), wordsOf(look)];
  const numbered = [number, name].filter((word) => word !== "").join(" ");
  return [numbered, words].filter((word) => word !== "").join(": ");
}

/** The names in the order in which they get their place. */
export function ranked<T>(all: readonly T[], lookOf: (one: T) => Look | undefined): T[] {
  const rank = (one: T): number => lookOf(one)?.rank ?? Infinity;
  return [...all].sort((one, other) => (rank(one) === rank(other) ? 0 : rank(one) - rank(other)));
}

const HATCH = [14, 11, 8, 5]; // px between the lines of a tint, for each quarter of a share

/** Px between the lines that hatch a tint: the nearer, the greater its share. */
export function hatchApart(share: number): number {
  return HATCH[Math.max(0, Math.min(HATCH.length - 1, Math.floor(share * HATCH.length)))] ?? 5;
}

/** Per cent of a tint's colour over the wood. */
export function tintPercent(share: number): number {
  return Math.round(100 * Math.max(0, Math.min(1, share)));
}
