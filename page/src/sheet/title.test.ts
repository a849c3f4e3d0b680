import { describe, expect, it } from "vitest";
import { sizeWords, stateWords, type Told } from "./title";

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
  { notes: ["warn", "note"], open: true, says: "1 warning, 1 note, 1 not checked" },
  { notes: ["note", "note"], open: false, says: "2 notes" },
];

describe("the state in the title block", () => {
  it.each(CASES)("leaves out no note, nor what was not checked: $says", ({ notes, open, says }) => expect(words(notes, open)).toBe(says));
});

describe("the size in the title block", () => {
  const size = { left: 0, foot: 100, right: 2460, head: 1600, deep: 340 };
  const rest = { masses: [["a", 50.4], ["b", 55.4]] as [string, number][], stands: "answered" as const };

  it("has the mass once each board's is known, and none that is of before a change", () => {
    expect(sizeWords(size, "mm", rest, ["a", "b"])).toBe("2460 × 1500 × 340 mm; 106 kg");
    expect(sizeWords(size, "mm", rest, ["a", "b", "c"])).toBe("2460 × 1500 × 340 mm");
    expect(sizeWords(size, "mm", { ...rest, stands: "working" }, ["a", "b"])).toBe("2460 × 1500 × 340 mm");
    expect(sizeWords(null, "mm", rest, [])).toBe("");
  });
});
