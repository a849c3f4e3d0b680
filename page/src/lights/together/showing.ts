/** A step as a pose of the piece: what is there, what comes along its way in, what is still to come. */
import { HOME, pairKey, shifted, type Look, type Matrix, type PairKey, type Shown } from "../../core/shown";
import type { Assembly, AssemblyStep, Hanging, Order } from "../../core/wire";
import { awayAt, framesOf, type Frame } from "./frames";

const FAR = 1.25; // a part starts this much farther out than it must, so that it is seen to be out
/** Lying on its wall edges, seen from the foot; standing; lying on its front edges, seen from behind. */
const LYING = { eye: { yaw: -24, pitch: -24 }, says: "Lying on its wall edges, seen from the foot; what comes in comes down." } as const;
const TURNED = { eye: { yaw: 156, pitch: -24 }, says: "Lying on its front edges, seen from the foot; what comes in comes down." } as const;
const UP = { eye: { yaw: -27, pitch: 16 }, says: "Standing at its wall." } as const;

/** The place of the slider that shows a frame, of whose way in a share is gone. */
export function placeOf(index: number, share: number): number {
  return index + Math.max(1e-6, share);
}

/** The frame that a place of the slider shows, and the share of its way in that is gone; at first the first, home. */
export function frameAt(frames: readonly Frame[], at: number): { index: number; share: number } {
  const index = Math.max(0, Math.min(frames.length, Math.ceil(at)) - 1);
  return { index, share: at > 0 ? Math.min(1, at - index) : 1 };
}

/** What is shown of an order, with what goes in that is no board; nothing of its own where there is none. */
export function shownAt(order: Order | null, at: number, assembly: Pick<Assembly, "steps"> | null = null, hanging: Pick<Hanging, "way"> | null = null): Shown | null {
  const frames = order ? framesOf(order, hanging) : [];
  const { index, share } = frameAt(frames, at);
  const frame = frames[index];
  const sheet = assembly?.steps.length === frames.length ? assembly.steps[index] : undefined;
  return frame ? shownOf(frame, index, share, sheet?.wares ?? []) : null;
}

function shownOf(frame: Frame, index: number, share: number, wares: AssemblyStep["wares"]): Shown {
  const standing = frame.kind === "stand" || frame.kind === "hang" || (frame.stage.place === "site" && frame.kind === "after");
  const { eye, says } = standing ? UP : frame.up === "wall" ? TURNED : LYING;
  const [x, y, z] = frame.step ? awayAt(frame.step, 0) : [0, 0, 0];
  const out = FAR * (1 - share);
  const [there, coming] = [new Set(frame.there), new Set(frame.parts)];
  const pose = new Map<string, Matrix>([...frame.stage.parts, ...there, ...coming].map((part) => [part, HOME]));
  for (const part of coming) pose.set(part, shifted([x * out, y * out, z * out]));
  const boards = new Map<string, Look>([...pose.keys()].flatMap((part) => (there.has(part) || coming.has(part) ? [] : [[part, { faint: true }]])));
  const joints = new Map<PairKey, Look>(wares.map(({ joint, says: label }): [PairKey, Look] => [pairKey(joint), { label, rank: 1 }]));
  return { boards, joints, pose, eye, legend: { says }, stands: `together, step ${index + 1}` };
}
