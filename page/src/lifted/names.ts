import { overlaps, type Rect } from "../sheet/placing";
import type { PartModel } from "./model";
import type { Stage } from "./stage";

const LETTER = 6.6;

export interface NamePlace {
  readonly board: string;
  readonly x: number;
  readonly y: number;
  readonly lit: boolean;
}

const ALONG = [0.4, 0.2, 0, -0.2, -0.4]; // of a part's length from its middle: where its name is tried
const INSIDE = 0.02; // mm before the front edge, so that a look at it meets it

/**
 * Names beside the parts' front edges; one that would lie on another is left out, the chosen first.
 *
 * A part has a name where that place of its front edge is seen: not one that is hidden, cut away, or stands behind another.
 */
export function namePlaces(stage: Stage, chosen: ReadonlySet<string>, all: boolean): NamePlace[] {
  const used: Rect[] = [];
  const placed: NamePlace[] = [];
  const sorted = [...stage.parts].sort((one, other) => Number(chosen.has(other.board)) - Number(chosen.has(one.board)));
  for (const part of sorted) {
    if (!all && !chosen.has(part.board)) continue;
    for (const [x, y] of all ? seen(stage, part) : fronts(stage, part).slice(0, 1)) {
      const level = Math.abs(part.matrix[1] ?? 0) < 0.5;
      const at = { x: level ? x - part.board.length * 4 : x + 14, y: level ? y + 26 : y };
      const rect: Rect = { left: at.x - 2, right: at.x + part.board.length * LETTER + 2, top: at.y - 14, bottom: at.y + 4 };
      if (used.some((other) => overlaps(rect, other))) continue;
      used.push(rect);
      placed.push({ board: part.board, ...at, lit: chosen.has(part.board) });
      break;
    }
  }
  return placed;
}

/** Places of a part's front edge on the screen; of a level one from its right end on, of a steep one from its middle. */
function fronts(stage: Stage, part: PartModel): [number, number][] {
  const [x = 1, y = 0] = part.matrix;
  const level = Math.abs(y) < 0.5;
  const way = level ? Math.sign(x) || 1 : 1;
  const shares = level ? ALONG : [...ALONG].sort((one, other) => Math.abs(one) - Math.abs(other));
  return shares.map((share) => {
    const far = share * way * part.size[0];
    return stage.at([part.centre[0] + x * far, part.centre[1] + y * far, part.centre[2] + part.size[2] / 2 + INSIDE]);
  });
}

function seen(stage: Stage, part: PartModel): [number, number][] {
  return fronts(stage, part).filter(([x, y]) => stage.hit(x, y)?.board === part.board);
}
