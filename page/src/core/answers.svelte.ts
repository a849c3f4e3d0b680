/** What the studies have answered, as last fetched. */
import { job } from "./job.svelte";
import { Refused, server } from "./network/client";
import type { Results, StudyName } from "./wire";

export interface Told<Name extends StudyName> {
  readonly result: Results[Name] | null;
  /** Why there is no result; "" while it is on its way. */
  readonly why: string;
  /** It is of before the last change. */
  readonly stale: boolean;
  /** Of the job: for which it was last looked at; null before the first. */
  readonly revision: number | null;
  /** How far the work on it is, from 0 to 1. */
  readonly done: number;
}

const NOTHING = { result: null, why: "", stale: false, revision: null, done: 0 } as const;

class Answers {
  #told = $state.raw<{ readonly [Name in StudyName]?: Told<Name> }>({});
  readonly #asked = new Map<StudyName, string>();

  of<Name extends StudyName>(name: Name): Told<Name> {
    return this.#told[name] ?? NOTHING;
  }

  /** In step with the job: asked anew for each revision, and when the slow work has answered or stopped. */
  follow(names: readonly StudyName[]): void {
    const state = job.state;
    if (state) for (const name of names) void this.#fetch(name, `${state.revision} ${state.rest.revision ?? ""} ${state.rest.stands}`);
  }

  async #fetch<Name extends StudyName>(name: Name, asked: string): Promise<void> {
    if (this.#asked.get(name) === asked) return;
    this.#asked.set(name, asked);
    try {
      const { result, why, stale, revision, done } = await server.study(name);
      this.#tell(name, asked, { result, why, stale, revision, done });
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      this.#tell(name, asked, { ...NOTHING, why: error.fault.says });
    }
  }

  #tell<Name extends StudyName>(name: Name, asked: string, told: Told<Name>): void {
    if (this.#asked.get(name) === asked) this.#told = { ...this.#told, [name]: told };
  }
}

export const answers = new Answers();
