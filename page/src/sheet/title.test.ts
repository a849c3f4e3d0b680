import { describe, expect, it } from "vitest";
import type { State } from "../core/wire";
import { stateWords } from "./title";

const LOOK = { lifted: false, step: 0, yaw: 0, pitch: 0, stands: "answered" } as const;
const OPEN = { study: "fits", what: "whether it fits", why: "no figure is known" };

/** As much of a state as its words are made from: how grave each note is, and whether something is left open. */
function words(severities: readonly string[], open: boolean): string {
  const notes = severities.map((severity) => ({ severity }));
  const state = { mistakes: [], stale: false, drawing: { boards: [{}] }, notes, not_checked: open ? [OPEN] : [] };
  return stateWords(state as unknown as State, LOOK);
}

describe("the state in the title block", () => {
  it.each([
    { notes: [], open: false, says: "nothing found" },
    { notes: [], open: true, says: "no stop; 1 not looked at" },
    { notes: ["warn"], open: true, says: "1 to look at, 1 not looked at" },
    { notes: ["stop", "warn", "warn"], open: true, says: "1 stop, 2 to look at, 1 not looked at" },
    { notes: ["warn"], open: false, says: "1 to look at" },
  ])("never leaves out what was not looked at: $says", ({ notes, open, says }) => expect(words(notes, open)).toBe(says));
});
