/** What is done on the wall, step by step, out of what the studies have answered; nothing is reckoned here. */
import type { Results } from "../../core/wire";

export type Driven = Results["driving"]["screws"][number];
export type Lifted = Results["hanging"]["offers"][number]["lifts"][number];
export type Entering = Results["trueness"]["entries"][number];
type WallStep = NonNullable<Results["order"]["wall"]>["steps"][number];

export interface SiteStep {
  /** As in the hanging book, from 1. */
  readonly number: number;
  readonly name: string;
  readonly parts: readonly string[];
  /** Put together on the floor, to go up with others later. */
  readonly onFloor: boolean;
  /** From where it goes home, along what; null where it goes up as it is. */
  readonly way: WallStep | null;
  readonly lift: Lifted | null;
}

export type Known = { readonly [Study in "order" | "hanging" | "driving"]: Results[Study] | null };

/** The steps: those that screws are looked at by; where there is no screw, those of the order on the wall, or the one lift. */
export function stepsOf({ order, hanging, driving }: Known): readonly SiteStep[] {
  const offer = hanging?.offers.find((one) => one.way === hanging.way);
  const wall = hanging?.way === "wall" ? (order?.wall?.steps ?? []) : [];
  const lifts = new Map((offer?.lifts ?? []).map((lift) => [lift.parts.join("\n"), lift]));
  const told: readonly { says: string; parts: readonly string[]; on_wall: boolean }[] = driving !== null && driving.steps.length > 0
    ? driving.steps
    : wall.length > 0 ? wall.map(({ step, on_wall }) => ({ says: step.name, parts: step.parts, on_wall }))
    : (offer?.lifts ?? []).map(({ says, parts }) => ({ says, parts, on_wall: true }));
  return told.map((one, index) => ({
    number: index + 1,
    name: one.says,
    parts: one.parts,
    onFloor: !one.on_wall,
    way: wall[index]?.step.parts.join("\n") === one.parts.join("\n") ? (wall[index] ?? null) : null,
    lift: lifts.get(one.parts.join("\n")) ?? (told.length === 1 ? (offer?.lifts[0] ?? null) : null),
  }));
}

/** What stands at the wall before a step. */
export function standing(steps: readonly SiteStep[], number: number): ReadonlySet<string> {
  return new Set(steps.filter((one) => one.number < number && !one.onFloor).flatMap((one) => one.parts));
}

/** How a screw stands at the end of a step: not driven yet, driven and left loose, tight; or it can be driven at none. */
export type ScrewState = "never" | "not yet" | "loose" | "home";

export function stateOf(screw: Pick<Driven, "step" | "tight">, number: number): ScrewState {
  if (screw.step === null) return "never";
  if (screw.step > number) return "not yet";
  return screw.tight !== null && screw.tight > number ? "loose" : "home";
}

/** Whether a hand is at a screw in a step: it is driven then, or tightened. */
export function isOf(screw: Pick<Driven, "step" | "tight">, number: number): boolean {
  return screw.step === number || screw.tight === number;
}

/** One screw from another, in every answer that tells of them. */
export const keyOf = (one: { readonly fixing: string; readonly number: number }): string => `${one.fixing}\n${one.number}`;

/** What will cover a screw's mouth, or stand in its line, and from which step. */
export function laterOver(screw: Pick<Driven, "bars" | "covered">): Driven["bars"][number] | null {
  return screw.covered ?? screw.bars.find((bar) => !bar.beside) ?? null;
}

/** Of what is put in from a step on, that which bears least lean of what stands there: how true it must hang till then. */
export function truest(entries: readonly Entering[], steps: readonly SiteStep[], number: number): { readonly entry: Entering; readonly step: number; readonly lean: number } | null {
  const stepOf = (entry: Entering): number => steps.find((one) => one.parts.join("\n") === entry.parts.join("\n"))?.number ?? 0;
  const found = entries.flatMap((entry) => {
    const leans = [entry.right, entry.left].filter((lean) => lean !== null);
    return leans.length === 0 || stepOf(entry) < number ? [] : [{ entry, step: stepOf(entry), lean: Math.min(...leans) }];
  });
  return found.reduce<(typeof found)[number] | null>((least, one) => (least === null || one.lean < least.lean ? one : least), null);
}

const MOST_NAMED = 2; // boards, in the one line that the foot has

/** What is done to screws in a step, with the boards they hold: "3 screws of shelf 1 driven, left loose". */
export function acts(screws: readonly Driven[], number: number): readonly string[] {
  const groups = new Map<string, { boards: Set<string>; count: number }>();
  for (const screw of screws.filter((one) => isOf(one, number))) {
    const does = screw.step !== number ? "tightened" : stateOf(screw, number) === "loose" ? "driven, left loose" : "driven home";
    const group = groups.get(does) ?? { boards: new Set<string>(), count: 0 };
    group.boards.add(screw.board);
    group.count += 1;
    groups.set(does, group);
  }
  return [...groups].map(([does, { boards, count }]) => `${count} ${count === 1 ? "screw" : "screws"} of ${boards.size > MOST_NAMED ? `${boards.size} boards` : [...boards].join(", ")} ${does}`);
}

type Joined = Results["driving"]["joined"][number];

/** Screws from board to board, those of one joint and board alike together: when they are driven, and what comes over them. */
export function joinedRows(driving: Results["driving"] | null): readonly { key: string; what: string; screw: string; driven: string; then: string; never: boolean }[] {
  const groups = new Map<string, Joined[]>();
  for (const one of driving?.joined ?? []) {
    const key = `${one.joint.join("\n")}\n${one.board}\n${one.step ?? ""}\n${one.covered?.part ?? ""}`;
    groups.set(key, [...(groups.get(key) ?? []), one]);
  }
  const at = (number: number): string => {
    const step = driving?.bench[number];
    if (!step) return "";
    const where = step.on_wall ? "on the wall" : step.stage;
    return [where, step.number > 0 ? `step ${step.number}` : "lies first"].filter((word) => word !== "").join(", ");
  };
  return [...groups].flatMap(([key, some]) => {
    const [one] = some;
    if (!one) return [];
    const bar = one.covered ?? one.bars[0] ?? null;
    const then = bar === null ? "stays free" : `${bar.says} ${bar.lies ? "covers them" : bar.hand ? "leaves the hand no room" : "is in the line"}: ${at(bar.step)}`;
    return [{ key, what: `${some.length} through ${one.board} into ${one.into}`, screw: one.screw, driven: one.step === null ? "never" : at(one.step), then, never: one.step === null }];
  });
}
