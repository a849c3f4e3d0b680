/** Of three notes one goes, one is told otherwise, one stays as it was: it is not sent again, and is the same object at every step. */
import { describe, expect, it } from "vitest";
import { merged } from "./merge";
import type { Note, Previewed, State } from "./wire";

function note(id: string, number: number, says = id): Note {
  return {
    id, number, says, code: "c", severity: "warn", lead: "", remedy: "", found: null, limit: null, unit: "", source: "", at: null,
    boards: [], joint: null, cut: null, path: null, light: "set-out", cures: [{ label: "do it", edits: [] }], uncured: "", stale: false,
  };
}

const STATE = { revision: 4, drawing: { boards: [], joints: [], dimensions: [] }, notes: [note("a", 1), note("b", 2), note("c", 3)] } as unknown as State;

function told(notes: Note[], same_notes: string[]): Previewed {
  return {
    revision: 4, says: "", boards: [], joints: [], boards_moved: [], joints_moved: [], gone_boards: [], gone_joints: [], dimensions: null,
    notes, same_notes, writes: [], mistakes: [], refused: null,
  };
}

const shown = (preview: Previewed): readonly Note[] => merged(STATE, preview)?.notes ?? [];

describe("the notes of a preview", () => {
  it("stand in their order, those that are as they were between those that are told, all numbered anew", () => {
    const notes = shown(told([note("b", 1, "worse"), note("new", 3)], ["c"]));
    expect(notes.map(({ id, number, says }) => [id, number, says])).toEqual([["b", 1, "worse"], ["c", 2, "c"], ["new", 3, "new"]]);
  });

  it("offer nothing while a hand moves", () => {
    expect(shown(told([], ["a", "c"])).flatMap((one) => one.cures)).toEqual([]);
  });

  it("are the same objects at the next step, so that nothing is drawn anew", () => {
    const [one, other] = [shown(told([], ["a", "c"])), shown(told([], ["a", "c"]))];
    expect(one.length).toBe(2);
    expect(one.every((each, at) => each === other[at])).toBe(true);
  });

  it("are none where none is told", () => {
    expect(shown(told([], []))).toEqual([]);
  });
});
