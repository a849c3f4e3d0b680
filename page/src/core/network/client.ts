/** The only caller of the server. Every refusal becomes a `Refused` with words for the maker. */
import type {
  Answered, Assembly, BayFound, Bays, Card, CardOf, Change, Changed, DerivedOf, Fault, Gripped, History, Papers, Previewed, Refusal, SavedPapers, Schema, State, StudyName, Target, Task, Tried, Doing, Offers,
} from "../wire";

export class Refused extends Error {
  constructor(
    readonly status: number,
    readonly fault: Fault,
  ) {
    super(fault.says);
  }
}

/** Nobody answered: the server is not running, or the way to it is shut. */
export class Unreached extends Error {}

async function asked(way: string, init?: RequestInit): Promise<Response> {
  let answer: Response;
  try {
    answer = await fetch(`./api/${way}`, { credentials: "same-origin", ...init });
  } catch (error) {
    throw new Unreached(String(error));
  }
  if (answer.ok) return answer;
  throw new Refused(answer.status, await faultOf(answer));
}

async function faultOf(answer: Response): Promise<Fault> {
  const plain: Fault = {
    code: "unknown", says: `The server answered ${answer.status}.`, remedy: "Open the page anew from the terminal.", mistakes: [], revision: null, since: [],
  };
  try {
    const refusal: Partial<Refusal> = await answer.json();
    return refusal.error ?? plain;
  } catch {
    return plain;
  }
}

async function got<T>(way: string, signal?: AbortSignal): Promise<T> {
  return (await asked(way, signal ? { signal } : undefined)).json();
}

async function sent<T>(way: string, body: unknown, method = "POST", signal?: AbortSignal): Promise<T> {
  const init: RequestInit = { method, headers: { "Content-Type": "application/json" }, body: JSON.stringify(body) };
  if (signal) init.signal = signal;
  return (await asked(way, init)).json();
}

interface Based {
  operation_id: string;
  base_revision: number;
}

function cardQuery(of: CardOf): string {
  const query = new URLSearchParams();
  if (of.board) query.set("board", of.board);
  if (of.row) query.set("row", of.row);
  if (of.frame) query.set("frame", of.frame);
  if (of.fixing) query.set("fixing", of.fixing);
  for (const name of of.joint ?? []) query.append("joint", name);
  return query.toString();
}

export const server = {
  state: () => got<State>("state"),
  schema: () => got<Schema>("schema"),
  edit: (change: Change) => sent<Changed>("edit", change),
  text: (base: Based, text: string, was: string) => sent<Changed>("text", { ...base, text, was }),
  undo: (base: Based) => sent<Changed>("undo", base),
  redo: (base: Based) => sent<Changed>("redo", base),
  history: () => got<History>("history"),
  restore: (base: Based, version: number) => sent<Changed>("restore", { ...base, version }),
  grip: (base_revision: number, target: Target) => sent<Gripped>("drag", { base_revision, target }),
  preview: async (base_revision: number, doing: Doing) => {
    const told = await sent<Previewed>("preview", { base_revision, doing });
    if (told.refused && told.mistakes.length === 0) throw new Refused(200, told.refused); // it cannot be so, or not yet: an answer all the same
    return told;
  },
  bays: () => got<Bays>("bays"),
  bay: (at: readonly [number, number], others: readonly (readonly [number, number])[] = []) => sent<BayFound>("bay", { at, others }),
  ways: (base_revision: number, of: DerivedOf) => sent<Offers>("ways", { base_revision, ...of }),
  card: (of: CardOf) => got<Card>(`card?${cardQuery(of)}`),
  study: <Name extends StudyName>(name: Name) => got<Answered<Name>>(`study/${name}`),
  whatIf: <Name extends StudyName>(name: Name, base_revision: number, levers: Readonly<Record<string, Readonly<Record<string, string | number>>>>) => sent<Tried<Name>>(`study/${name}`, { base_revision, levers }),
  assembly: () => got<Assembly>("assembly"),
  model: async (have: readonly string[], revision: number): Promise<ArrayBuffer> => {
    const query = new URLSearchParams([["revision", String(revision)], ...have.map((key): [string, string] => ["have", key])]);
    return (await asked(`model?${query}`)).arrayBuffer();
  },
  papers: () => got<Papers>("papers"),
  makePapers: (names: readonly string[]) => sent<Task>("papers", { names }),
  cancelPapers: (task: number) => sent<Papers>(`papers/${task}`, {}, "DELETE"),
  savePapers: (files: readonly string[]) => sent<SavedPapers>("papers/save", { files }),
  paperAddress: (file: string) => `./api/papers/${encodeURIComponent(file)}`,
  /** A sheet's picture as an element of the page; null where it cannot be had. */
  picture: async (address: string): Promise<Element | null> => {
    try {
      const text = await (await fetch(address, { credentials: "same-origin" })).text();
      const { documentElement } = new DOMParser().parseFromString(text, "image/svg+xml");
      return documentElement.localName === "svg" ? document.importNode(documentElement, true) : null;
    } catch {
      return null;
    }
  },
  pictureAddress: (name: string, page: number, revision: number | null) => `./api/papers/${encodeURIComponent(name)}/${page}.svg?r=${revision ?? 0}`,
};
