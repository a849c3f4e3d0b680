/** The finish plan as frames: first what is seen of each board, then step by step how many coats are on it. */
import { pairKey, type Look, type PairKey, type Shown } from "../../core/shown";
import type { LengthUnit } from "../../core/units";
import type { Results } from "../../core/wire";

export type Coating = Results["coating"];
export type FinishStep = Coating["steps"][number];
export type CoatedFace = Coating["faces"][number];

/** One place of the slider. `step` is null of the first, which shows areas; `coats` are on each board when it is done. */
export interface Frame {
  readonly step: FinishStep | null;
  readonly words: string;
  readonly day: string;
  readonly coats: ReadonlyMap<string, number>;
}

const ACTS: Readonly<Record<FinishStep["act"], string>> = {
  sand: "sand", mask: "mask the joints of", coat: "coat", glue: "glue up", carry: "hard: carry away", "put in": "put in", "live with": "hard: it may be used,",
};
const FT2_PER_M2 = 1 / 0.3048 ** 2;
const IN2_PER_M2 = 1 / 0.0254 ** 2;
const FEW = 3;

/** An area as sheets have it: square metres, or square feet where lengths are in inches. */
export function areaWords(m2: number, units: LengthUnit): string {
  return `${areaFigure(m2, units)} ${units === "in" ? "ft²" : "m²"}`;
}

function areaFigure(m2: number, units: LengthUnit): string {
  return units === "in" ? (m2 * FT2_PER_M2).toFixed(1) : m2.toFixed(2);
}

/** A small area: square centimetres, or square inches. */
export function patchWords(m2: number, units: LengthUnit): string {
  return units === "in" ? `${(m2 * IN2_PER_M2).toFixed(1)} sq in` : `${(m2 * 1e4).toFixed(0)} cm²`;
}

export function framesOf(coating: Coating): Frame[] {
  if (coating.steps.length === 0) return [];
  const all = coating.boards.length;
  const on = new Map(coating.boards.map((board) => [board.name, 0]));
  const first: Frame = { step: null, words: "What is seen, hidden and masked", day: "", coats: new Map(on) };
  const rest = coating.steps.map((step): Frame => {
    if (step.act === "coat") for (const board of step.boards) on.set(board, (on.get(board) ?? 0) + 1);
    return { step, words: `${actWords(step)} ${boardWords(step.boards, all)}`, day: dayWords(step), coats: new Map(on) };
  });
  return [first, ...rest];
}

function actWords(step: FinishStep): string {
  const grits = step.grits.map((grit) => `P${grit}`).join(", ");
  const act = step.act === "coat" ? `coat ${step.coat} on` : ACTS[step.act];
  return grits === "" ? act : `${act} by ${grits}:`;
}

function boardWords(boards: readonly string[], all: number): string {
  if (boards.length === all) return all === 1 ? (boards[0] ?? "") : "all boards";
  return boards.length <= FEW ? boards.join(", ") : `${boards.length} boards`;
}

function dayWords({ day, date, hours }: FinishStep): string {
  if (day === null || hours === null) return "";
  return date === "" ? `day ${day}` : `day ${day}, ${date}`;
}

/** The frame that a place of the slider shows. */
export function frameAt(frames: readonly Frame[], at: number): number {
  return Math.max(0, Math.min(frames.length - 1, Math.round(at)));
}

/** How boards and joints look at a place of the slider; as always where nothing is planned. */
export function shownAt(coating: Coating, at: number, units: LengthUnit = "mm"): Shown | null {
  const frames = framesOf(coating);
  const index = frameAt(frames, at);
  const frame = frames[index];
  if (!frame) return null;
  return frame.step ? stepShown(coating, frame, frame.step, index, units) : areasShown(coating, units);
}

function areasShown(coating: Coating, units: LengthUnit): Shown {
  const boards = new Map(coating.boards.map((board): [string, Look] => {
    if (board.coats === 0) return [board.name, { faint: true, label: uncoated(board.when) }];
    const seen = sum(coating.faces.filter((face) => face.board === board.name).map((face) => face.seen_m2));
    const share = board.open_m2 > 0 ? seen / board.open_m2 : 0;
    return [board.name, { tint: { share, says: `${areaFigure(seen, units)} of ${areaWords(board.open_m2, units)} seen` } }];
  }));
  const joints = new Map(coating.joints.filter((joint) => joint.states.includes("masked")).map((joint): [PairKey, Look] => [pairKey(joint.joint), { label: "masked" }]));
  const from = coating.eyes.length > 0 ? coating.eyes.join(", ") : "the front";
  return {
    boards, joints, stands: "finish, areas",
    legend: { says: `What of each board is seen from ${from}`, tints: [{ share: 0.5, says: "half of what is open" }, { share: 1, says: "all of it" }] },
  };
}

function stepShown(coating: Coating, frame: Frame, step: FinishStep, index: number, units: LengthUnit): Shown {
  const here = new Set(step.boards);
  const boards = new Map(coating.boards.map(({ name, coats, when }): [string, Look] => {
    if (coats === 0 && !here.has(name)) return [name, { faint: true, label: uncoated(when) }];
    const on = frame.coats.get(name) ?? 0;
    const tint = on > 0 ? { tint: { share: on / coats, says: `${on} of ${coats} coats` } } : {};
    return [name, here.has(name) ? { ...tint, rank: 1, label: done(step) } : tint];
  }));
  const joints = new Map(coating.joints.flatMap((joint): [PairKey, Look][] => {
    const label = jointWords(joint, step, units);
    return label === "" ? [] : [[pairKey(joint.joint), { label }]];
  }));
  const day = frame.day === "" ? "" : `; ${frame.day}`;
  return {
    boards, joints, stands: `finish, step ${index}`,
    legend: { says: `${frame.words.charAt(0).toUpperCase()}${frame.words.slice(1)}${day}`, tints: [{ share: 0.5, says: "half of its coats" }, { share: 1, says: "all its coats" }] },
  };
}

function done({ act, grits }: FinishStep): string {
  if (act === "sand") return `sanded P${grits.at(-1) ?? ""}`;
  if (act === "coat") return "wet";
  return { mask: "masked", glue: "glued", carry: "hard", "put in": "put in", "live with": "hard" }[act];
}

/** What is to be said of a joint at a step: masked, glued, or with how much film it closes. */
function jointWords(joint: Coating["joints"][number], { act, boards }: FinishStep, units: LengthUnit): string {
  const masked = joint.joint.some((board, side) => joint.states[side] === "masked" && boards.includes(board));
  if (act === "mask") return masked ? "masked" : "";
  if (act === "glue") return joint.closes === "glued" ? "glued" : "";
  if (act !== "put in" || joint.closes !== "put in") return "";
  const films = joint.films.map((film, side) => Math.max(film, joint.wall_films[side] ?? 0));
  if (sum(films) > 0) return `film ${films.map((film) => filmWords(film, units)).join(" and ")} a face`;
  return joint.glued ? "glued here" : "no film";
}

/** A film, which is thinner than lengths are told to. */
function filmWords(mm: number, units: LengthUnit): string {
  return units === "in" ? (mm / 25.4).toFixed(4) : mm.toFixed(3);
}

function uncoated(when: string | null): string {
  return when === null ? "coats: not known when" : "no coats";
}

export function sum(figures: readonly number[]): number {
  return figures.reduce((all, one) => all + one, 0);
}
