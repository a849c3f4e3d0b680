import { overlaps, type Rect } from "../core/rect";
import { named, pairKey, ranked, type Look, type Shown } from "../core/shown";
import type { BoardShown, JointShown } from "../core/wire";
import type { PartModel } from "./model";
import type { Stage } from "./stage";

const LETTER = 6.6;

export interface NamePlace {
  readonly board: string;
  /** The name with what the light says of the board. */
  readonly says: string;
  readonly x: number;
  readonly y: number;
  readonly lit: boolean;
}

/** What names ask of the stage. */
export type Seen = Pick<Stage, "parts" | "at" | "hit" | "placed" | "lookOf">;

const ALONG = [0.4, 0.2, 0, -0.2, -0.4]; // of a part's length from its middle: where its name is tried
const INSIDE = 0.02; // mm before the front edge, so that a look at it meets it

/**
 * Names beside the parts' front edges; one that would lie on another is left out, the chosen first.
 *
 * A part has a name where that place of its front edge is seen, wherever it has gone: not one that is hidden, cut away, or
 * stands behind another. It lies on its own board, or beside all of them, wherever there is room for that; else with its
 * middle on its own. While the eye moves nothing is looked at, and what is chosen keeps its first place.
 */
export function namePlaces(stage: Seen, chosen: ReadonlySet<string>, all: boolean, resting = all, taken: readonly Rect[] = [], room: Rect | null = null): NamePlace[] {
  const used: Rect[] = [...taken];
  const placed: NamePlace[] = [];
  const byRank = ranked(stage.parts, (part) => stage.lookOf(part.board));
  const sorted = byRank.sort((one, other) => Number(chosen.has(other.board)) - Number(chosen.has(one.board)));
  for (const part of sorted) {
    const says = named(part.board, stage.lookOf(part.board));
    const told = resting && says !== part.board; // what a light says of a board is seen as its name is
    if (!all && !told && !chosen.has(part.board)) continue;
    const places = resting ? seen(stage, part) : fronts(stage, part).slice(0, 1);
    const beside = places.map((place) => besides(part, says, place));
    const free = (at: At): boolean => {
      const rect = rectOf(says, at);
      return !used.some((other) => overlaps(rect, other)) && !(room && (rect.left < room.left || rect.right > room.right || rect.top < room.top || rect.bottom > room.bottom));
    };
    const usual = [...beside.flatMap((four) => four.slice(0, 1)), ...beside.flatMap((four) => four.slice(1))];
    const at = (resting ? usual.find((one) => free(one) && clear(stage, part.board, says, one)) ?? beside.flatMap(onIt).find(free) : undefined) ?? (resting && chosen.has(part.board) ? undefined : usual.find(free));
    if (!at) continue;
    used.push(rectOf(says, at));
    placed.push({ board: part.board, says, ...at, lit: chosen.has(part.board) });
  }
  return placed;
}

interface At {
  readonly x: number;
  readonly y: number;
}

/** Where a name may begin: its usual side first, then the others, and last on the place itself. */
function besides(part: PartModel, says: string, [x, y]: [number, number]): At[] {
  const wide = says.length * LETTER;
  const level = Math.abs(part.matrix[1] ?? 0) < 0.5;
  const usual = level ? { x: x - says.length * 4, y: y + 26 } : { x: x + 14, y };
  return [usual, { x: x + 14, y }, { x: x - wide - 14, y }, { x: x - wide / 2, y: y - 14 }, { x: x - wide / 2, y: y + 4 }];
}

const onIt = (places: readonly At[]): At[] => places.slice(-1);

function rectOf(says: string, at: At): Rect {
  return { left: at.x - 2, right: at.x + says.length * LETTER + 2, top: at.y - 14, bottom: at.y + 4 };
}

/** Whether a name there lies on no other board. */
function clear(stage: Seen, board: string, says: string, at: At): boolean {
  const { left, right, top, bottom } = rectOf(says, at);
  const across = [0, 0.25, 0.5, 0.75, 1].map((share) => left + share * (right - left));
  return across.every((x) => [top, bottom].every((y) => [board, undefined].includes(stage.hit(x, y)?.board)));
}

/** Places of a part's front edge on the screen; of a level one from its right end on, of a steep one from its middle. */
function fronts(stage: Seen, part: PartModel): [number, number][] {
  const [x = 1, y = 0] = part.matrix;
  const level = Math.abs(y) < 0.5;
  const way = level ? Math.sign(x) || 1 : 1;
  const shares = level ? ALONG : [...ALONG].sort((one, other) => Math.abs(one) - Math.abs(other));
  return shares.map((share) => {
    const far = share * way * part.size[0];
    return stage.at(stage.placed(part.board, [part.centre[0] + x * far, part.centre[1] + y * far, part.centre[2] + part.size[2] / 2 + INSIDE]));
  });
}

function seen(stage: Seen, part: PartModel): [number, number][] {
  return fronts(stage, part).filter(([x, y]) => stage.hit(x, y)?.board === part.board);
}

export interface JointPlace {
  readonly says: string;
  readonly x: number;
  readonly y: number;
  readonly look: Look;
}

/** The place that a joint's disc and its words take. */
export function jointRect({ says, x, y }: JointPlace): Rect {
  return { left: x - 9, right: x + 12 + says.length * LETTER, top: y - 9, bottom: y + 9 };
}

/** What a light says of joints, each where the boards' front edges meet; of a fixing where each of its screws is. Left out where that is not seen. */
export function jointPlaces(stage: Pick<Stage, "at" | "hit" | "placed">, shown: Shown | null, joints: readonly JointShown[], boards: ReadonlyMap<string, BoardShown>): JointPlace[] {
  return joints.flatMap((joint) => {
    const look = shown?.joints.get(pairKey(joint.boards));
    const own = [...new Set([...joint.boards, ...joint.says.map((cut) => cut.board)])].filter((name) => boards.has(name)); // of a fixing the boards it is cut in
    const fronts = own.flatMap((name) => boards.get(name)?.front ?? []);
    const pose = shown?.pose;
    const [board] = own;
    if (!look || look.faint || board === undefined || fronts.length === 0 || (pose && own.some((name) => !pose.has(name)))) return [];
    return [joint.at, ...joint.also].flatMap((at, index): JointPlace[] => {
      const [x, y] = stage.at(stage.placed(board, [at[0], at[1], Math.max(...fronts) + INSIDE]));
      const met = stage.hit(x, y)?.board;
      return met === undefined || own.includes(met) ? [{ says: index === 0 ? named("", look) : "", x, y, look }] : [];
    });
  });
}
