/** What is typed into the blanks of a sentence, as it was typed; the same blank may stand on the drawing too. */
import { sight } from "../core/sight.svelte";
import { typedLength } from "../core/units";
import { fieldsOf, type Field } from "./sentences";

export type Entries = Readonly<Partial<Record<Field, string>>>;
export type Figures = Readonly<Partial<Record<Field, number>>>;

class Typed {
  entries = $state.raw<Entries>({});
  /** Fields in the order in which they were last typed in. */
  order = $state.raw<readonly Field[]>([]);
  /** Those that are a figure by now: lengths in mm, degrees, numbers. */
  readonly figures: Figures = $derived.by(() => {
    const found: Partial<Record<Field, number>> = {};
    if (sight.tool === "hand") return found;
    for (const { field, unit } of fieldsOf(sight.tool)) {
      const figure = typedLength(this.entries[field] ?? "", unit === "length" ? sight.units : "mm");
      if (figure !== null) found[field] = figure;
    }
    return found;
  });

  begin(entries: Entries = {}): void {
    this.entries = entries;
    this.order = [];
  }

  write(field: Field, entry: string): void {
    this.entries = { ...this.entries, [field]: entry };
    this.order = [...this.order.filter((other) => other !== field), field];
  }

  clear(...fields: readonly Field[]): void {
    this.entries = Object.fromEntries(Object.entries(this.entries).filter(([field]) => !fields.some((gone) => gone === field)));
  }

  has(field: Field): boolean {
    return (this.entries[field] ?? "").trim() !== "";
  }

  /** The first blank that nothing is typed in, else the last. */
  get next(): Field | undefined {
    if (sight.tool === "hand") return undefined;
    const fields = fieldsOf(sight.tool).map(({ field }) => field);
    return fields.find((field) => !this.has(field)) ?? fields.at(-1);
  }
}

export const typed = new Typed();

/** The box of a blank, that of the same place before one elsewhere. */
export function boxOf(field: Field, near: Element | null = null): HTMLInputElement | null {
  const wanted = `[data-field=${field}]`;
  return near?.closest("[data-fields]")?.querySelector<HTMLInputElement>(wanted) ?? document.querySelector<HTMLInputElement>(wanted);
}

export function typeIn(field: Field | undefined, near: Element | null = null): boolean {
  const box = field === undefined ? null : boxOf(field, near);
  box?.focus();
  return box !== null;
}
