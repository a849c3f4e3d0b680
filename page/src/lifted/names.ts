import { overlaps, type Rect } from "../sheet/placing";
import type { Stage } from "./stage";

const LETTER = 6.6;

export interface NamePlace {
  readonly board: string;
  readonly x: number;
  readonly y: number;
  readonly lit: boolean;
}

/** Names to the right of the parts' front middles; one that would lie on another is left out, the chosen first. */
export function namePlaces(stage: Stage, chosen: ReadonlySet<string>, all: boolean): NamePlace[] {
  const used: Rect[] = [];
  const placed: NamePlace[] = [];
  const sorted = [...stage.parts].sort((one, other) => Number(chosen.has(other.board)) - Number(chosen.has(one.board)));
  for (const part of sorted) {
    if (!all && !chosen.has(part.board)) continue;
    const level = Math.abs(part.matrix[1] ?? 0) < 0.5;
    const along = level ? part.size[0] * 0.4 : 0; // names of level boards stand under their right ends
    const [x, y] = stage.at([part.centre[0] + along, part.centre[1], part.centre[2] + part.size[2] / 2]);
    const at = { x: level ? x - part.board.length * 4 : x + 14, y: level ? y + 26 : y };
    const rect: Rect = { left: at.x - 2, right: at.x + part.board.length * LETTER + 2, top: at.y - 14, bottom: at.y + 4 };
    if (used.some((other) => overlaps(rect, other))) continue;
    used.push(rect);
    placed.push({ board: part.board, ...at, lit: chosen.has(part.board) });
  }
  return placed;
}
