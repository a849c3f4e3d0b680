/** What studies would find with their levers moved: asked of the server, shown, and written nowhere. */
import { job } from "./job.svelte";
import { figuresOf, rangeOf, type LeverFigure } from "./levers";
import { Refused, server } from "./network/client";
import { length } from "./units";
import type { StudyName, Tried } from "./wire";
import { words } from "./words.svelte";

const MM_PER = { mm: 1, in: 25.4 } as const;

class WhatIf {
  /** What is typed in a lever's stead, by study, lever and figure. */
  #typed = $state.raw<ReadonlyMap<string, string>>(new Map());
  #told = $state.raw<{ readonly [Name in StudyName]?: Tried<Name> }>({});
  /** Why nothing is told, by study. */
  #why = $state.raw<ReadonlyMap<StudyName, string>>(new Map());
  #asked = 0;

  figures(study: StudyName): LeverFigure[] {
    return words.schema ? figuresOf(words.schema.levers, study) : [];
  }

  typed(study: StudyName, figure: LeverFigure): string | undefined {
    return this.#typed.get(key(study, figure));
  }

  /** Whether something of a study is not as it stands. */
  moved(study: StudyName): boolean {
    return this.figures(study).some((figure) => this.typed(study, figure) !== undefined);
  }

  /** What it would find, of the drawing that is seen; null while nothing is moved, or not known yet. */
  of<Name extends StudyName>(study: Name): Tried<Name> | null {
    const told = this.#told[study];
    return told && this.moved(study) && told.revision === job.state?.drawn ? told : null;
  }

  why(study: StudyName): string {
    return this.#why.get(study) ?? "";
  }

  /** Another figure; "" puts it back. */
  type(study: StudyName, figure: LeverFigure, entry: string): void {
    const typed = new Map(this.#typed);
    if (entry.trim() === "" || entry.trim() === String(figure.given)) typed.delete(key(study, figure));
    else typed.set(key(study, figure), entry.trim());
    this.#typed = typed;
    void this.ask(study);
  }

  /** All as it stands again. */
  leave(study: StudyName): void {
    const own = this.figures(study).map((figure) => key(study, figure));
    this.#typed = new Map([...this.#typed].filter(([name]) => !own.includes(name)));
    this.#because(study, "");
  }

  async ask<Name extends StudyName>(study: Name): Promise<void> {
    const revision = job.state?.drawn;
    if (!this.moved(study) || revision == null) return this.#because(study, "");
    const asked = ++this.#asked;
    const out = this.figures(study).find((figure) => outOf(figure, this.typed(study, figure)));
    if (out) return this.#refused(study, `${out.label}: ${rangeIn(out)}`);
    const levers: Record<string, Record<string, string | number>> = {};
    for (const figure of this.figures(study)) {
      const entry = this.typed(study, figure);
      if (entry !== undefined) levers[figure.lever] = { ...levers[figure.lever], [figure.figure]: Number.isFinite(Number(entry)) ? Number(entry) : entry };
    }
    try {
      const told = await server.whatIf(study, revision, levers);
      if (asked !== this.#asked) return;
      this.#told = { ...this.#told, [study]: told };
      this.#because(study, told.why);
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      if (asked === this.#asked) this.#refused(study, [error.fault.says, error.fault.remedy].filter((part) => part !== "").join("; "));
    }
  }

  /** Nothing is told: what was before is no answer to what is asked now. */
  #refused(study: StudyName, why: string): void {
    const { [study]: _, ...others } = this.#told;
    this.#told = others;
    this.#because(study, why);
  }

  #because(study: StudyName, why: string): void {
    this.#why = new Map(this.#why).set(study, why);
  }
}

/** A range in the job's units, in which what is typed counts. */
export function rangeIn(figure: LeverFigure): string {
  const units = job.state?.job?.units ?? "mm";
  return figure.unit === "mm" ? rangeOf({ ...figure, unit: units }, (value) => length(value, units)) : rangeOf(figure, String);
}

/** Whether a plain number is out of its range; what arithmetic comes to the server knows. */
function outOf({ unit, least, most, above }: LeverFigure, entry: string | undefined): boolean {
  const value = Number(entry) * (unit === "mm" ? MM_PER[job.state?.job?.units ?? "mm"] : 1);
  return value < (least ?? -Infinity) || value > (most ?? Infinity) || value <= (above ?? -Infinity);
}

function key(study: StudyName, { lever, figure }: LeverFigure): string {
  return `${study} ${lever} ${figure}`;
}

export const whatIf = new WhatIf();
