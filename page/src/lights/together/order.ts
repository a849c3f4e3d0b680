/** The order study's result, read with care: it comes as the job book writes it, and may be missing. */
import type { Cure, Edit } from "../../core/wire";

export type Vec = readonly [number, number, number];

export interface Leg {
  readonly direction: Vec;
  readonly distance: number;
}

export interface Step {
  readonly name: string;
  readonly parts: readonly string[];
  readonly onto: readonly string[];
  readonly legs: readonly Leg[];
  readonly into: readonly string[];
  readonly joints: readonly (readonly [string, string])[];
  readonly turned: boolean;
  readonly up: "front" | "wall";
}

export interface Locked {
  readonly says: string;
  readonly parts: readonly string[];
  readonly waits: readonly (readonly [string, readonly string[]])[];
  readonly cure: Cure | null;
}

export interface Stage {
  readonly name: string;
  readonly place: "shop" | "site";
  readonly parts: readonly string[];
  readonly first: readonly string[];
  readonly steps: readonly Step[];
  readonly after: readonly string[];
  readonly locked: readonly Locked[];
}

export interface Order {
  readonly stages: readonly Stage[];
  readonly overlaps: readonly (readonly [string, string])[];
  readonly proof: string;
}

type Table = Readonly<Record<string, unknown>>;

function isTable(value: unknown): value is Table {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

const list = (value: unknown): readonly unknown[] => (Array.isArray(value) ? value : []);
const text = (value: unknown): string => (typeof value === "string" ? value : "");
const texts = (value: unknown): string[] => list(value).filter((one) => typeof one === "string");
const number = (value: unknown): number => (typeof value === "number" ? value : 0);
const tables = (value: unknown): Table[] => list(value).filter(isTable);

function pairs(value: unknown): [string, string][] {
  return list(value).flatMap((one): [string, string][] => {
    const [first, second] = texts(one);
    return first !== undefined && second !== undefined ? [[first, second]] : [];
  });
}

function leg(table: Table): Leg {
  const [x, y, z] = list(table["direction"]).map(number);
  return { direction: [x ?? 0, y ?? 0, z ?? 0], distance: number(table["distance"]) };
}

function step(table: Table): Step {
  return {
    name: text(table["name"]), parts: texts(table["parts"]), onto: texts(table["onto"]), legs: tables(table["legs"]).map(leg), into: texts(table["into"]),
    joints: pairs(table["joints"]), turned: table["turned"] === true, up: table["up"] === "wall" ? "wall" : "front",
  };
}

const ACTIONS = ["set", "add", "remove", "rename", "shift"] as const;

function edit(table: Table): Edit[] {
  const action = ACTIONS.find((one) => one === table["action"]);
  const path = list(table["path"]).filter((one): one is string | number => typeof one === "string" || typeof one === "number");
  return action ? [{ action, path, value: table["value"] ?? null }] : [];
}

function cure(value: unknown): Cure | null {
  return isTable(value) ? { label: text(value["label"]), edits: tables(value["edits"]).flatMap(edit) } : null;
}

function waits(value: unknown): [string, string[]][] {
  return list(value).map((one): [string, string[]] => [text(list(one)[0]), texts(list(one)[1])]);
}

function locked(table: Table): Locked {
  return { says: text(table["says"]), parts: texts(table["parts"]), waits: waits(table["waits"]), cure: cure(table["cure"]) };
}

function stage(table: Table): Stage {
  return {
    name: text(table["name"]), place: table["place"] === "site" ? "site" : "shop", parts: texts(table["parts"]), first: texts(table["first"]),
    steps: tables(table["steps"]).map(step), after: texts(table["after"]), locked: tables(table["locked"]).map(locked),
  };
}

/** The order as the page needs it; null where there is none. */
export function orderOf(result: unknown): Order | null {
  if (!isTable(result) || !Array.isArray(result["stages"])) return null;
  return { stages: tables(result["stages"]).map(stage), overlaps: pairs(result["overlaps"]), proof: text(result["proof"]) };
}
