export type Point = [number, number];
export type Path = (string | number)[];
export type Plain = string | number | boolean | null | Plain[] | { [key: string]: Plain };
export type Severity = "stop" | "warn" | "note";
export interface Edit { action: "set" | "add" | "remove" | "rename" | "shift"; path: Path; value: Plain }
export interface Cure { label: string; edits: Edit[] }
export interface BoardShown {
  name: string; timber: string; outline: Point[]; line: [Point, Point]; thickness: number; depth: number; back: number;
  length: number; rake: number; lies: "across" | "flat"; frame: string; index: number; mass_kg: number | null; path: Path; label_at: Point;
}
export interface JointShown {
  boards: [string, string]; kind: string; mark: string; at: Point; hand: string; front: string; says: string[];
}
export interface Note {
  id: string; number: number; code: string; severity: Severity; says: string; remedy: string; at: Point | null;
  boards: string[]; joint: [string, string] | null; light: string; cures: Cure[]; stale: boolean;
}
export interface Dimension { axis: "x" | "y"; value: number; of: string; path: Path | null }
export type Item =
  | { kind: "polyline"; points: Point[]; closed: boolean; pen: string; layer: string; owner: string }
  | { kind: "area"; loops: Point[][]; fill: string; layer: string; owner: string }
  | { kind: "circle"; at: Point; radius: number; pen: string; layer: string; owner: string }
  | { kind: "text"; at: Point; text: string; anchor: "start" | "middle" | "end"; layer: string; owner: string };
export interface Mistake { line: number; column: number; end_column: number; says: string; remedy: string; edits: Edit[] }
export interface State {
  revision: number; file: string; text: string;
  saved: { at: string; state: string; writable: boolean; says: string };
  job: { title: string; client: string; date: string; units: "mm" | "in" };
  wall: { width: number; height: number; studs: number[]; hung: boolean };
  extent: [number, number, number, number];
  boards: BoardShown[]; joints: JointShown[]; notes: Note[]; dimensions: Dimension[]; drawing: Item[];
  undo: string | null; redo: string | null; last: string; stale: boolean; mistakes: Mistake[];
}
