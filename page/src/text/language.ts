/** The little of TOML that is told apart by sight: headers, comments, and the values that are typed. */
import { HighlightStyle, StreamLanguage, syntaxHighlighting, type StringStream } from "@codemirror/language";
import { tags } from "@lezer/highlight";

interface Where {
  /** Behind an equals sign, until the line ends outside brackets. */
  value: boolean;
  depth: number;
}

function token(stream: StringStream, where: Where): string | null {
  if (stream.sol() && where.depth === 0) where.value = false;
  if (stream.eatSpace()) return null;
  if (stream.peek() === "#") {
    stream.skipToEnd();
    return "comment";
  }
  if (stream.sol() && where.depth === 0 && stream.match(/^\[\[?.*?\]\]?(?=\s*(#|$))/)) return "heading";
  if (!where.value) {
    if (stream.eat("=")) where.value = true;
    else stream.next();
    return null;
  }
  return value(stream, where);
}

function value(stream: StringStream, where: Where): string | null {
  if (stream.match(/^"""[^]*?("""|$)|^"(?:[^"\\]|\\.)*"?|^'[^']*'?/)) return "string";
  if (stream.match(/^[+-]?[\w.:+-]+(?!\s*=)/)) return "string";
  const letter = stream.next();
  if (letter === "[" || letter === "{") where.depth += 1;
  if (letter === "]" || letter === "}") where.depth = Math.max(0, where.depth - 1);
  return null;
}

const language = StreamLanguage.define<Where>({
  startState: () => ({ value: false, depth: 0 }),
  copyState: (where) => ({ ...where }),
  token,
  tokenTable: { heading: tags.heading, comment: tags.comment, string: tags.string },
});

const style = HighlightStyle.define([
  { tag: tags.heading, fontWeight: "600" },
  { tag: tags.string, color: "var(--blue)" },
  { tag: tags.comment, color: "var(--ink2)" },
]);

export const jobLanguage = [language, syntaxHighlighting(style)];
