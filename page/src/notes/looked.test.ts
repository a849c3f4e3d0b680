/** What the foot of the sheet says of what was checked: an all-clear stands only where everything has answered. */
import { describe, expect, it } from "vitest";
import type { LeftOpen, State } from "../core/wire";
import { grouped, nothingFound, some, standing, waiting } from "./looked";

const left = (study: string, what: string, why: string, waits = false): LeftOpen => ({ study, what, why, boards: [], waits });
const state = (stands: State["rest"]["stands"], not_checked: LeftOpen[]): State =>
  ({ not_checked, rest: { revision: 1, running: false, done: 1, what: "", says: "the background work stopped", masses: [], stands } }) as unknown as State;
const seen = { previewed: false, lost: false };

describe("what was checked", () => {
  it("says that nothing was found only once all has answered", () => {
    const open = [left("loads", "what the shelves carry", "no load is given")];
    expect(nothingFound(state("answered", open), "answered")).toBe("Nothing found in what was checked.");
    expect(nothingFound(state("answered", []), "answered")).toBe("Nothing found.");
    for (const stands of ["moving", "lost", "working", "stopped"] as const) expect(nothingFound(state("answered", []), stands)).toBe("");
  });

  it("does not take what was answered before a hand moved it for an answer", () => {
    expect(standing(state("answered", []), seen)).toBe("answered");
    expect(standing(state("answered", []), { ...seen, previewed: true })).toBe("moving");
    expect(standing(state("answered", []), { ...seen, lost: true })).toBe("lost");
  });

  it("names what is waited for, three of it at most", () => {
    const waits = ["a", "b", "c", "d"].map((what) => left(what, what, "it is being worked out", true));
    expect(waiting(state("working", [...waits, left("room", "the room", "not given")]), "working")).toBe("Working: a; b; c and 1 more.");
    expect(waiting(state("stopped", waits), "stopped")).toBe("Stopped: the background work stopped.");
  });

  it("tells what one question leaves open for one reason together", () => {
    const open = [left("screws", "the hold of screw 1", "no anchor"), left("room", "the room", "not given"), left("screws", "the hold of screw 2", "no anchor")];
    expect(grouped(open)).toEqual([
      { what: "the hold of screw 1, the hold of screw 2", why: "no anchor" },
      { what: "the room", why: "not given" },
    ]);
    expect(some(["a", "b"], 3)).toBe("a, b");
  });
});
