/** Mistakes on their lines: the line tinted, the word underlined, the sentence directly under the line. */
import { StateEffect, StateField, type EditorState, type Range } from "@codemirror/state";
import { Decoration, EditorView, WidgetType, type DecorationSet } from "@codemirror/view";
import { capital, mend, sentence } from "../core/sentence";
import type { Mistake } from "../core/wire";

export const setMistakes = StateEffect.define<readonly Mistake[]>();

class Sentence extends WidgetType {
  constructor(
    private readonly number: number,
    private readonly mistake: Mistake,
  ) {
    super();
  }

  override eq(other: Sentence): boolean {
    return other.number === this.number && other.mistake.says === this.mistake.says && other.mistake.remedy === this.mistake.remedy;
  }

  override toDOM(view: EditorView): HTMLElement {
    const place = document.createElement("div");
    place.className = "sentence";
    const flag = document.createElement("span");
    flag.className = "flag";
    flag.textContent = String(this.number);
    const words = document.createElement("span");
    words.textContent = capital(sentence(this.mistake.says, this.mistake.remedy));
    place.append(flag, words);
    const cure = this.#cure(view);
    if (cure) place.append(cure);
    return place;
  }

  /** A button that puts the name that is meant in the place of the one that was read. */
  #cure(view: EditorView): HTMLElement | null {
    if (this.mistake.line > view.state.doc.lines) return null;
    const line = view.state.doc.line(this.mistake.line);
    const found = mend(line.text, this.mistake);
    if (!found) return null;
    const button = document.createElement("button");
    button.className = "put";
    button.textContent = `put ${found.name}`;
    button.onclick = () => {
      view.dispatch({ changes: { from: line.from + found.from, to: line.from + found.to, insert: found.name }, userEvent: "input.cure" });
      view.focus();
    };
    return button;
  }

  override ignoreEvent(): boolean {
    return true;
  }
}

function decorated(state: EditorState, mistakes: readonly Mistake[]): DecorationSet {
  const marks: Range<Decoration>[] = [];
  mistakes.forEach((mistake, index) => {
    if (mistake.line < 1 || mistake.line > state.doc.lines) return;
    const line = state.doc.line(mistake.line);
    marks.push(Decoration.line({ class: "mistaken" }).range(line.from));
    const [from, to] = [Math.min(line.to, line.from + mistake.column), Math.min(line.to, line.from + mistake.end_column)];
    if (to > from) marks.push(Decoration.mark({ class: "wrong" }).range(from, to));
    marks.push(Decoration.widget({ widget: new Sentence(index + 1, mistake), block: true, side: 1 }).range(line.to));
  });
  return Decoration.set(marks, true);
}

export const mistakeField = StateField.define<DecorationSet>({
  create: () => Decoration.none,
  update(marks, transaction) {
    for (const effect of transaction.effects) if (effect.is(setMistakes)) return decorated(transaction.state, effect.value);
    return marks.map(transaction.changes);
  },
  provide: (field) => EditorView.decorations.from(field),
});
