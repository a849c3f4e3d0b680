import { describe, expect, it } from "vitest";
import { stateWords, type Told } from "./title";

type Severity = Told["notes"][number]["severity"];

const LOOK = { lifted: false, light: "", yaw: 0, pitch: 0, stands: "answered" } as const;
const OPEN = { study: "fits", what: "whether it fits", why: "no figure is known", boards: [], waits: false };

function words(severities: readonly Severity[], open: boolean): string {
  const notes = severities.map((severity) => ({ severity }));
  return stateWords({ mistakes: [], stale: false, drawing: { boards: [{}] }, notes, not_checked: open ? [OPEN] : [] }, LOOK);
}

const CASES: readonly { notes: readonly Severity[]; open: boolean; says: string }[] = [
  { notes: [], open: false, says: "nothing found" },
  { notes: [], open: true, says: "no stop; 1 not checked" },
  { notes: ["warn"], open: true, says: "1 warning, 1 not checked" },
  { notes: ["stop", "warn", "warn"], open: true, says: "1 stop, 2 warnings, 1 not checked" },
  { notes: ["warn"], open: false, says: "1 warning" },
];

describe("the state in the title block", () => {
  it.each(CASES)("never leaves out what was not checked: $says", ({ notes, open, says }) => expect(words(notes, open)).toBe(says));
});
