import { pairKey } from "./shown";
import type { Previewed, State } from "./wire";

/** The state with a preview's differences laid over it; the state itself where there is none or it is of another revision. */
export function merged(state: State | null, preview: Previewed | null, keepsNotes = false): State | null {
  if (state === null || preview === null || preview.revision !== state.revision || preview.mistakes.length > 0) return state;
  const boards = laidOver(state.drawing.boards, preview.boards, new Set(preview.gone_boards), (board) => board.name);
  const joints = laidOver(state.drawing.joints, preview.joints, new Set(preview.gone_joints.map(pairKey)), (joint) => pairKey(joint.boards));
  const drawing = { ...state.drawing, boards, joints, dimensions: preview.dimensions ?? state.drawing.dimensions };
  return { ...state, drawing, notes: keepsNotes ? state.notes : preview.notes };
}

function laidOver<T>(all: readonly T[], changed: readonly T[], gone: ReadonlySet<string>, key: (item: T) => string): T[] {
  const by = new Map(changed.map((item) => [key(item), item]));
  const kept = all.filter((item) => !gone.has(key(item))).map((item) => by.get(key(item)) ?? item);
  const known = new Set(all.map(key));
  return [...kept, ...changed.filter((item) => !known.has(key(item)))];
}
