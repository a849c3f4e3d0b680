/** What may be meant where a place of a board is being typed: the words for places, then the boards' names. */
import { Prec, StateEffect, StateField, type EditorState, type Extension } from "@codemirror/state";
import { EditorView, keymap, showTooltip, type Tooltip } from "@codemirror/view";

const LEAST = 2; // letters before a word is guessed at
const MOST = 12; // shown

/** The words for places, each with the axis that it is of, and the boards that may be named. */
export interface Offered {
  readonly places: Readonly<Record<string, "" | "x" | "y">>;
  readonly names: readonly string[];
}

export interface Completion {
  /** How many characters before the cursor are replaced. */
  readonly typed: number;
  readonly all: readonly { readonly label: string; readonly insert: string }[];
}

/** The text that the cursor stands in, by what is before it on its line; null outside of one, and in a remark. */
function openText(before: string): { quote: string; start: number; within: string } | null {
  let open: { quote: string; start: number } | null = null;
  for (let at = 0; at < before.length; at += 1) {
    const letter = before.charAt(at);
    if (open) open = letter === open.quote ? null : open;
    else if (letter === "#") return null;
    else if (letter === '"' || letter === "'") open = { quote: letter, start: at };
  }
  return open && { ...open, within: before.slice(open.start + 1) };
}

/** What may be meant at the cursor; null where nothing is being typed that could be a place. */
export function completionAt(before: string, after: string, { places, names }: Offered): Completion | null {
  const text = openText(before);
  if (!text || !/[[,]\s*$/.test(before.slice(0, text.start))) return null;
  const inner = text.quote === "'" ? '"' : "'";
  const name = new RegExp(`\\b(?:${Object.keys(places).join("|")})\\(${inner}([^${inner}]*)$`).exec(text.within)?.[1];
  if (name !== undefined) {
    const closes = after.startsWith(`${inner})`) ? "" : after.startsWith(inner) ? "" : `${inner})`;
    const found = names.filter((one) => one.toLowerCase().includes(name.toLowerCase()) && !one.includes(inner) && !one.includes(text.quote));
    return found.length === 0 ? null : { typed: name.length, all: found.slice(0, MOST).map((one) => ({ label: one, insert: `${one}${closes}` })) };
  }
  const word = /(?:^|[^\w"'])([a-z]+)$/.exec(text.within)?.[1] ?? "";
  if (word.length < LEAST) return null;
  const axis = /\[\s*$/.test(before.slice(0, text.start)) ? "x" : "y";
  const fits = Object.entries(places).flatMap(([one, of]) => (one.startsWith(word) && (of === "" || of === axis) ? [{ label: `${one}(${inner}...${inner})`, insert: `${one}(${inner}` }] : []));
  const between = "between".startsWith(word) ? [{ label: "between(a, b, 1/2)", insert: "between(" }] : [];
  const all = [...fits, ...between];
  return all.length === 0 ? null : { typed: word.length, all };
}

interface Open extends Completion {
  readonly pos: number;
  readonly chosen: number;
}

const step = StateEffect.define<number | null>();

function openAt(state: EditorState, offered: Offered): Open | null {
  const { main } = state.selection;
  if (!main.empty) return null;
  const line = state.doc.lineAt(main.head);
  const found = completionAt(line.text.slice(0, main.head - line.from), line.text.slice(main.head - line.from), offered);
  return found && { ...found, pos: main.head, chosen: 0 };
}

function take(view: EditorView, open: Open, index: number): boolean {
  const one = open.all[index];
  if (!one) return false;
  const from = open.pos - open.typed;
  view.dispatch({ changes: { from, to: open.pos, insert: one.insert }, selection: { anchor: from + one.insert.length }, userEvent: "input.complete" });
  view.focus();
  return true;
}

function listed(open: Open): Tooltip {
  return {
    pos: open.pos - open.typed,
    above: false,
    create: (view) => {
      const dom = document.createElement("ul");
      dom.className = "meant";
      dom.setAttribute("role", "listbox");
      dom.setAttribute("aria-label", "What may be meant");
      open.all.forEach((one, index) => {
        const row = document.createElement("li");
        row.setAttribute("role", "option");
        row.setAttribute("aria-selected", String(index === open.chosen));
        row.textContent = one.label;
        row.onpointerdown = (event) => {
          event.preventDefault(); // the cursor stays in the text
          take(view, open, index);
        };
        dom.append(row);
      });
      return { dom };
    },
  };
}

/** The list under the cursor: arrows go through it, Enter or Tab takes, Escape leaves. */
export function completing(offered: () => Offered): Extension {
  const field = StateField.define<Open | null>({
    create: () => null,
    update(open, transaction) {
      for (const effect of transaction.effects) {
        if (!effect.is(step)) continue;
        if (effect.value === null || !open) return null;
        return { ...open, chosen: (open.chosen + effect.value + open.all.length) % open.all.length };
      }
      if (transaction.docChanged) return transaction.isUserEvent("input") || transaction.isUserEvent("delete") ? openAt(transaction.state, offered()) : null;
      return transaction.selection ? null : open;
    },
    provide: (field) => showTooltip.from(field, (open) => open && listed(open)),
  });
  const whenOpen = (does: (view: EditorView, open: Open) => boolean) => (view: EditorView): boolean => {
    const open = view.state.field(field);
    return open !== null && does(view, open);
  };
  const move = (by: number | null): ((view: EditorView) => boolean) => whenOpen((view) => {
    view.dispatch({ effects: step.of(by) });
    return true;
  });
  const taken = whenOpen((view, open) => take(view, open, open.chosen));
  return [
    field,
    Prec.highest(keymap.of([{ key: "ArrowDown", run: move(1) }, { key: "ArrowUp", run: move(-1) }, { key: "Enter", run: taken }, { key: "Tab", run: taken }, { key: "Escape", run: move(null) }])),
  ];
}
