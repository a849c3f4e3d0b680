import { pairKey } from "./shown";
import type { BoardShown, JointShown, Note, Previewed, State } from "./wire";

/** A preview with every board and joint that changes as it would be: what is told of those that move is laid over what they are. */
export function whole(state: State | null, told: Previewed): Previewed {
  if (state === null || told.revision !== state.revision) return told;
  const boards = new Map(state.drawing.boards.map((board) => [board.name, board]));
  const joints = new Map(state.drawing.joints.map((joint) => [pairKey(joint.boards), joint]));
  const movedBoards = told.boards_moved.flatMap((now): BoardShown[] => {
    const was = boards.get(now.name);
    return was === undefined ? [] : [{
      ...was, outline: now.outline ?? was.outline, face: now.face ?? was.face, line: now.line ?? was.line, length: now.length ?? was.length,
      rake: now.rake ?? was.rake, label_at: now.label_at ?? was.label_at, foot: now.foot ?? was.foot, head: now.head ?? was.head, along: now.along ?? was.along,
    }];
  });
  const movedJoints = told.joints_moved.flatMap((now): JointShown[] => {
    const was = joints.get(pairKey(now.boards));
    return was === undefined ? [] : [{ ...was, at: now.at ?? was.at, also: now.also ?? was.also, angle: now.angle ?? was.angle, says: now.says ?? was.says }];
  });
  return {
    ...told, boards: [...told.boards, ...movedBoards], joints: [...told.joints, ...movedJoints], boards_moved: [], joints_moved: [],
    notes: allNotes(state, told), same_notes: [],
  };
}

/** The state with a preview's differences laid over it; the state itself where there is none or it is of another revision. */
export function merged(state: State | null, preview: Previewed | null, keepsNotes = false): State | null {
  if (state === null || preview === null || preview.revision !== state.revision || preview.mistakes.length > 0) return state;
  const told = whole(state, preview);
  const boards = laidOver(state.drawing.boards, told.boards, new Set(told.gone_boards), (board) => board.name);
  const joints = laidOver(state.drawing.joints, told.joints, new Set(told.gone_joints.map(pairKey)), (joint) => pairKey(joint.boards));
  const drawing = { ...state.drawing, boards, joints, dimensions: preview.dimensions ?? state.drawing.dimensions };
  return { ...state, drawing, notes: keepsNotes ? state.notes : told.notes };
}

/** All notes of a preview: those that are as they were stand between those that it tells, which have their numbers. */
function allNotes(state: State, told: Previewed): Note[] {
  const same = told.same_notes;
  if (same.length === 0) return told.notes;
  const known = new Map(state.notes.map((note) => [note.id, note]));
  const fresh = new Map(told.notes.map((note) => [note.number, note]));
  const all: Note[] = [];
  for (let number = 1, next = 0; number <= same.length + told.notes.length; number += 1) {
    const note = fresh.get(number) ?? known.get(same[next++] ?? "");
    if (note !== undefined) all.push(fresh.has(number) ? note : bare(note, number));
  }
  return all;
}

const bares = new WeakMap<Note, Note>();

/** A note while a hand moves: the same object at every step, so that it is not drawn anew. */
function bare(note: Note, number: number): Note {
  const made = bares.get(note);
  if (made !== undefined && made.number === number) return made;
  const now = { ...note, number, cures: [], uncured: "" };
  bares.set(note, now);
  return now;
}

function laidOver<T>(all: readonly T[], changed: readonly T[], gone: ReadonlySet<string>, key: (item: T) => string): T[] {
  const by = new Map(changed.map((item) => [key(item), item]));
  const kept = all.filter((item) => !gone.has(key(item))).map((item) => by.get(key(item)) ?? item);
  const known = new Set(all.map(key));
  return [...kept, ...changed.filter((item) => !known.has(key(item)))];
}
