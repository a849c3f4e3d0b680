/** The editor of the job's text: what is typed is sent when the hand rests; what comes from elsewhere is taken in. */
import { defaultKeymap, indentWithTab } from "@codemirror/commands";
import { EditorState, StateEffect, StateField, Transaction } from "@codemirror/state";
import { Decoration, drawSelection, EditorView, keymap, lineNumbers, type DecorationSet } from "@codemirror/view";
import type { Mistake } from "../core/wire";
import { completing, type Offered } from "./completing";
import { jobLanguage } from "./language";
import { looks } from "./looks";
import { mistakeField, setMistakes } from "./mistakes";

const RESTS = 450;

export interface Told {
  /** The text as typed, when the hand rests, and the text that it was typed in; whether it was saved. */
  write(text: string, was: string): Promise<boolean>;
  undo(): void;
  redo(): void;
  /** The lines that are seen, and all of them. */
  seen(first: number, last: number, all: number): void;
  /** The line in which the cursor stands, moved by hand. */
  at(line: number): void;
  /** What may be completed. */
  offered(): Offered;
}

const setLit = StateEffect.define<{ first: number; last: number } | null>();

const litField = StateField.define<DecorationSet>({
  create: () => Decoration.none,
  update(marks, transaction) {
    for (const effect of transaction.effects) {
      if (!effect.is(setLit)) continue;
      const lit = effect.value;
      if (lit === null) return Decoration.none;
      const last = Math.min(lit.last, transaction.state.doc.lines);
      const lines = [];
      for (let line = lit.first; line <= last; line += 1) lines.push(Decoration.line({ class: "lit" }).range(transaction.state.doc.line(line).from));
      return Decoration.set(lines);
    }
    return marks.map(transaction.changes);
  },
  provide: (field) => EditorView.decorations.from(field),
});

export class Editor {
  readonly #view: EditorView;
  #timer = 0;
  #typed = false;
  /** The text in which is typed: as the server had it when it was last taken in, or as it was last sent. */
  #was: string;

  constructor(parent: ShadowRoot, text: string, private readonly told: Told) {
    this.#was = text;
    this.#view = new EditorView({
      parent,
      root: parent,
      state: EditorState.create({
        doc: text,
        extensions: [
          lineNumbers(), drawSelection(), EditorView.lineWrapping, jobLanguage, looks, mistakeField, litField, completing(() => told.offered()),
          keymap.of([
            { key: "Mod-z", run: () => this.#stepped(() => told.undo()) },
            { key: "Mod-y", run: () => this.#stepped(() => told.redo()) },
            { key: "Mod-Shift-z", run: () => this.#stepped(() => told.redo()) },
            indentWithTab, ...defaultKeymap,
          ]),
          EditorView.contentAttributes.of({ tabindex: "0", "aria-label": "Text of the job; Escape, then Tab, leaves it" }),
          EditorView.updateListener.of((update) => {
            if (update.docChanged && update.transactions.some((one) => one.annotation(Transaction.userEvent) !== undefined)) this.#changed();
            if (update.selectionSet && update.transactions.some((one) => one.isUserEvent("select"))) told.at(this.#line());
            if (update.viewportChanged || update.geometryChanged) this.#seen();
          }),
        ],
      }),
    });
    this.#view.scrollDOM.addEventListener("scroll", () => this.#seen());
  }

  #line(): number {
    const { state } = this.#view;
    return state.doc.lineAt(state.selection.main.head).number;
  }

  #seen(): void {
    const { scrollTop, clientHeight } = this.#view.scrollDOM;
    const line = (height: number): number => this.#view.state.doc.lineAt(this.#view.lineBlockAtHeight(height).from).number;
    this.told.seen(line(scrollTop), line(scrollTop + clientHeight - 24), this.#view.state.doc.lines);
  }

  #changed(): void {
    this.#typed = true;
    clearTimeout(this.#timer);
    this.#timer = window.setTimeout(() => void this.flush(), RESTS);
  }

  #stepped(step: () => void): boolean {
    void this.flush().then(step);
    return true;
  }

  async flush(): Promise<void> {
    clearTimeout(this.#timer);
    if (!this.#typed) return;
    this.#typed = false;
    const [sent, was] = [this.#view.state.doc.toString(), this.#was];
    if ((await this.told.write(sent, was)) && this.#typed && this.#was === was) this.#was = sent;
  }

  /** Take in the text as the server has it, unless the hand is typing; the cursor stays where it is. */
  take(text: string, mistakes: readonly Mistake[]): void {
    if (this.#typed) return;
    this.#was = text;
    const now = this.#view.state.doc.toString();
    const change = now === text ? [] : [difference(now, text)];
    this.#view.dispatch({ changes: change, effects: setMistakes.of(mistakes) });
  }

  light(lines: { first: number; last: number } | null, scroll: boolean): void {
    const effects: StateEffect<unknown>[] = [setLit.of(lines)];
    if (lines && scroll && lines.first <= this.#view.state.doc.lines) {
      effects.push(EditorView.scrollIntoView(this.#view.state.doc.line(lines.first).from, { y: "start", yMargin: 66 }));
    }
    this.#view.dispatch({ effects });
  }

  goTo(line: number): void {
    if (line < 1 || line > this.#view.state.doc.lines) return;
    const at = this.#view.state.doc.line(line).from;
    this.#view.dispatch({ selection: { anchor: at }, effects: EditorView.scrollIntoView(at, { y: "center" }) });
  }

  focus(): void {
    this.#view.focus();
  }

  close(): void {
    void this.flush();
    this.#view.destroy();
  }
}

/** The one stretch in which two texts differ. */
export function difference(before: string, after: string): { from: number; to: number; insert: string } {
  let from = 0;
  const least = Math.min(before.length, after.length);
  while (from < least && before[from] === after[from]) from += 1;
  let back = 0;
  while (back < least - from && before[before.length - 1 - back] === after[after.length - 1 - back]) back += 1;
  return { from, to: before.length - back, insert: after.slice(from, after.length - back) };
}
