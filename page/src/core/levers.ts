/** The levers of studies, read off their schema: figures that may be moved to ask "what if", with unit and range. */
import type { Schema } from "./wire";

export interface LeverFigure {
  /** Of which lever, and which of its figures, as they are sent. */
  readonly lever: string;
  readonly figure: string;
  /** In words, and what it means. */
  readonly label: string;
  readonly sentence: string;
  readonly unit: string;
  /** As it stands by itself; in the job's units a length as the schema has it, in mm. */
  readonly given: number | string;
  readonly least: number | null;
  readonly most: number | null;
  /** A bound that is not allowed itself. */
  readonly above: number | null;
}

/** The figures of a study's levers, in their order; those that are no figure (a choice, a word) are left out. */
export function figuresOf(levers: Schema["levers"], study: string): LeverFigure[] {
  return Object.entries(levers[study] ?? {}).flatMap(([lever, schema]) =>
    Object.entries(table(table(schema)["properties"])).flatMap(([figure, told]): LeverFigure[] => {
      const about = table(told);
      const bounds = { ...about, ...table(about["within"]) };
      const given = about["default"];
      if (typeof given !== "number" && !(typeof given === "string" && about["unit"] === "mm")) return [];
      return [{
        lever, figure, given, label: figure.replaceAll("_", " "), sentence: word(about["description"]), unit: word(about["unit"]),
        least: bound(bounds, "minimum"), most: bound(bounds, "maximum"), above: bound(bounds, "exclusiveMinimum"),
      }];
    }));
}

/** Its range in words: "0 to 200 mm", "more than 0", "" where it has none. */
export function rangeOf({ least, most, above, unit }: LeverFigure, figure: (value: number) => string): string {
  const from = least !== null ? figure(least) : above !== null ? `more than ${figure(above)}` : "";
  const told = from !== "" && most !== null ? `${from}${least !== null ? " to " : ", at most "}${figure(most)}` : from !== "" && least !== null ? `at least ${from}` : from || (most !== null ? `at most ${figure(most)}` : "");
  return told === "" || unit === "" ? told : `${told} ${unit}`;
}

function table(value: unknown): Readonly<Record<string, unknown>> {
  return typeof value === "object" && value !== null ? Object.fromEntries(Object.entries(value)) : {};
}

function bound(bounds: Readonly<Record<string, unknown>>, key: string): number | null {
  const value = bounds[key];
  return typeof value === "number" ? value : null;
}

function word(value: unknown): string {
  return typeof value === "string" ? value : "";
}
