/** The order as ticks of a slider: what lies first, each thing put in, what waits for the glue. */
import type { Hanging, Leg, Order, Stage, Step } from "../../core/wire";

export interface Frame {
  /** "stand": together, and brought to its wall; "hang": put up there, where it is put together on the wall. */
  readonly kind: "lay" | "move" | "after" | "stand" | "hang";
  readonly stage: Stage;
  readonly words: string;
  /** What is in place before this frame, of this stage. */
  readonly there: readonly string[];
  /** What this frame brings. */
  readonly parts: readonly string[];
  readonly step: Step | null;
  readonly up: "front" | "wall";
}

export function and(names: readonly string[]): string {
  return names.length < 2 ? names.join("") : `${names.slice(0, -1).join(", ")} and ${names.at(-1) ?? ""}`;
}

/** How the order stands, in a line: on its way, none found, or how many steps of it there are. */
export function standsWords(order: Order | null, frames: readonly Frame[], why: string, stale: boolean): string {
  if (order === null) return why || "The order is being worked out.";
  const before = stale ? "; before the last change" : "";
  if (frames.length === 0) return `No order was found${before}.`;
  return `${frames.length} steps, proved ${order.proof}${before}`;
}

/** The frames of a stage, one for each sheet of the booklet: both count alike (booklet/pages.py). */
function stageFrames(stage: Stage): Frame[] {
  if (stage.locked.length > 0 && stage.steps.length === 0) return [];
  const frames: Frame[] = [];
  const moves = stage.steps.findIndex((step) => step.legs.length > 0);
  const beside = moves < 0 ? stage.steps.length : moves; // what only lies beside the rest shares the first
  let there: string[] = [...stage.first, ...stage.steps.slice(0, beside).flatMap((step) => step.parts)];
  const up = stage.steps[0]?.up ?? "front";
  if (there.length > 0) {
    frames.push({ kind: "lay", stage, words: `${and(grouped(there))} laid down`, there: [], parts: there, step: null, up });
  }
  for (const step of stage.steps.slice(beside)) {
    const fresh = step.onto.filter((name) => !there.includes(name)); // of a part that is put together by itself
    if (fresh.length > 0) frames.push({ kind: "lay", stage, words: `${and(grouped(fresh))} laid down`, there, parts: fresh, step: null, up: step.up });
    const into = step.into.length > 0 ? ` into ${and(grouped(step.into))}` : "";
    const verb = step.legs.length === 0 ? " laid beside" : into;
    frames.push({ kind: "move", stage, words: `${step.name}${verb}`, there: [...new Set([...there, ...step.onto])], parts: step.parts, step, up: step.up });
    there = [...new Set([...there, ...step.onto, ...step.parts])];
  }
  if (stage.after.length > 0) {
    const words = and([...new Set(stage.after.map((name) => name.split(" of ")[0] ?? name))]);
    frames.push({ kind: "after", stage, words, there, parts: [], step: null, up: stage.steps.at(-1)?.up ?? up });
  }
  return frames;
}

/** "shelf 1, shelf 2 and shelf 3" as "shelf 1 to 3", where the numbers follow each other. */
export function grouped(names: readonly string[]): string[] {
  const found: { base: string; from: number; to: number }[] = [];
  const words: string[] = [];
  for (const name of names) {
    const numbered = /^(.*\D) (\d+)$/.exec(name);
    const last = found.at(-1);
    const [base, count] = [numbered?.[1], Number(numbered?.[2])];
    if (base !== undefined && last?.base === base && last.to + 1 === count) {
      last.to = count;
      words[words.length - 1] = `${base} ${last.from} to ${count}`;
    } else {
      words.push(name);
      found.push({ base: base ?? name, from: count, to: count });
    }
  }
  return words;
}

const known = { wall: new WeakMap<Order, readonly Frame[]>(), floor: new WeakMap<Order, readonly Frame[]>() }; // asked for in each picture of a way in

/** All frames of an order; then the whole is brought to its wall, or put up there step by step. */
export function framesOf(order: Order, hanging: Pick<Hanging, "way"> | null = null): readonly Frame[] {
  const way = hanging?.way === "wall" ? "wall" : "floor";
  const found = known[way].get(order) ?? [...every(order), ...(way === "wall" ? hungFrames(order) : [])];
  known[way].set(order, found);
  return found;
}

/** The frames on the wall, one for each step of the hanging book. */
function hungFrames(order: Order): Frame[] {
  const stage = order.stages.at(-1);
  if (!stage || stage.locked.length > 0) return [];
  return (order.wall?.steps ?? []).map(({ step }) => {
    const into = step.into.length > 0 ? ` into ${and(grouped(step.into))}` : " to the wall";
    return { kind: "hang", stage, words: `${step.name}${into}`, there: step.onto, parts: step.parts, step, up: "front" };
  });
}

function every(order: Order): readonly Frame[] {
  const drawn = order.stages.filter((stage) => stage.steps.length > 0 || order.stages.length === 1);
  const frames = drawn.flatMap(stageFrames);
  const last = drawn.at(-1);
  return frames.length === 0 || !last ? frames : [...frames, { kind: "stand", stage: last, words: "to its place", there: last.parts, parts: [], step: null, up: "front" }];
}

const LEAST_SEEN = 90; // mm: a shorter way is drawn from farther out, or nobody would see it move

function seenLegs(legs: readonly Leg[]): readonly Leg[] {
  const [first, ...rest] = legs;
  const whole = legs.reduce((sum, leg) => sum + leg.distance, 0);
  return first ? [{ ...first, distance: first.distance + Math.max(0, LEAST_SEEN - whole) }, ...rest] : [];
}

/** How far away a frame's parts are, mm, when a share from 0 (far) to 1 (home) of their way is gone. */
export function awayAt(step: Step, share: number): [number, number, number] {
  const legs = seenLegs(step.legs);
  const whole = legs.reduce((sum, leg) => sum + leg.distance, 0);
  let left = whole * (1 - share);
  const away: [number, number, number] = [0, 0, 0];
  for (const leg of [...legs].reverse()) {
    const part = Math.min(left, leg.distance);
    left -= part;
    leg.direction.forEach((value, axis) => (away[axis] = (away[axis] ?? 0) - value * part));
  }
  return away;
}

/** The way a step goes, as one would say it standing before the piece: as it lies, or at its wall. */
export function wayWords(step: Step, hung = false): string {
  const words = step.legs.map((leg) => {
    const [x, y, z] = leg.direction;
    const best = Math.max(Math.abs(x), Math.abs(y), Math.abs(z));
    if (hung && best === Math.abs(z)) return "back to the wall";
    if (hung && best === Math.abs(y)) return y < 0 ? "from above" : "from below";
    if (best === Math.abs(z)) return step.up === "front" === z < 0 ? "straight down" : z < 0 ? "towards the wall" : "towards the front";
    if (best === Math.abs(y)) return y < 0 ? "from the head" : "from the foot";
    return x < 0 ? "from the right" : "from the left";
  });
  return words.join(", then ");
}
