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

/** What names ask of the stage. */
export type Seen = Pick<Stage, "parts" | "at" | "hit" | "awayOf">;

const ALONG = [0.4, 0.2, 0, -0.2, -0.4]; // of a part's length from its middle: where its name is tried
const INSIDE = 0.02; // mm before the front edge, so that a look at it meets it

/**
 * Names beside the parts' front edges; one that would lie on another is left out, the chosen first.
 *
 * A part has a name where that place of its front edge is seen, wherever it has gone: not one that is hidden, cut away, or
 * stands behind another. While the eye moves nothing is looked at, and what is chosen keeps its first place.
 */
export function namePlaces(stage: Seen, chosen: ReadonlySet<string>, all: boolean, resting = all): NamePlace[] {
  const used: Rect[] = [];
  const placed: NamePlace[] = [];
  const sorted = [...stage.parts].sort((one, other) => Number(chosen.has(other.board)) - Number(chosen.has(one.board)));
  for (const part of sorted) {
    if (!all && !chosen.has(part.board)) continue;
    const places = resting ? seen(stage, part) : fronts(stage, part).slice(0, 1);
    const beside = places.map((place) => besides(part, place));
    // What is chosen stands out wherever it is: its name never lies on another board while there is room beside it.
    const offered = resting && chosen.has(part.board) ? [...beside.flatMap((four) => four.filter((at) => clear(stage, part, at))), ...beside.flatMap(onIt)] : beside.flatMap((four) => four.slice(0, 1));
    for (const at of offered) {
      const rect = rectOf(part, at);
      if (used.some((other) => overlaps(rect, other))) continue;
      used.push(rect);
      placed.push({ board: part.board, ...at, lit: chosen.has(part.board) });
      break;
    }
  }
  return placed;
}

interface At {
  readonly x: number;
  readonly y: number;
}

/** Where a name may begin: its usual side first, then the others, and last on the place itself. */
function besides(part: PartModel, [x, y]: [number, number]): At[] {
  const wide = part.board.length * LETTER;
  const level = Math.abs(part.matrix[1] ?? 0) < 0.5;
  const usual = level ? { x: x - part.board.length * 4, y: y + 26 } : { x: x + 14, y };
  return [usual, { x: x + 14, y }, { x: x - wide - 14, y }, { x: x - wide / 2, y: y - 14 }, { x: x - wide / 2, y: y + 4 }];
}

const onIt = (places: readonly At[]): At[] => places.slice(-1);

function rectOf(part: PartModel, at: At): Rect {
  return { left: at.x - 2, right: at.x + part.board.length * LETTER + 2, top: at.y - 14, bottom: at.y + 4 };
}

/** Whether a name there lies on no other board. */
function clear(stage: Seen, part: PartModel, at: At): boolean {
  const { left, right, top, bottom } = rectOf(part, at);
  const across = [0, 0.25, 0.5, 0.75, 1].map((share) => left + share * (right - left));
  return across.every((x) => [top, bottom].every((y) => [part.board, undefined].includes(stage.hit(x, y)?.board)));
}

/** Places of a part's front edge on the screen; of a level one from its right end on, of a steep one from its middle. */
function fronts(stage: Seen, part: PartModel): [number, number][] {
  const [dx, dy, dz] = stage.awayOf(part.board);
  const [x = 1, y = 0] = part.matrix;
  const level = Math.abs(y) < 0.5;
  const way = level ? Math.sign(x) || 1 : 1;
  const shares = level ? ALONG : [...ALONG].sort((one, other) => Math.abs(one) - Math.abs(other));
  return shares.map((share) => {
    const far = share * way * part.size[0];
    return stage.at([part.centre[0] + x * far + dx, part.centre[1] + y * far + dy, part.centre[2] + part.size[2] / 2 + INSIDE + dz]);
  });
}

function seen(stage: Seen, part: PartModel): [number, number][] {
  return fronts(stage, part).filter(([x, y]) => stage.hit(x, y)?.board === part.board);
}
