import { EditorView } from "@codemirror/view";

/** The editor lives in a shadow root, so that its style sheets are adopted and no inline style is needed. */
export const looks = EditorView.theme({
  "&": { height: "100%", color: "var(--ink)", background: "var(--sheet)", fontSize: "14px" },
  "&.cm-focused": { outline: "none" },
  ".cm-scroller": { fontFamily: "var(--mono)", lineHeight: "22px" },
  ".cm-content": { padding: "8px 0 40px", caretColor: "var(--blue)" },
  ".cm-line": { padding: "0 16px 0 12px" },
  ".cm-cursor": { borderLeft: "2px solid var(--blue)" },
  ".cm-selectionBackground, &.cm-focused .cm-selectionBackground": { background: "var(--wash) !important" },
  ".cm-gutters": { background: "var(--sheet)", color: "var(--ink2)", border: "0", fontSize: "13px", paddingLeft: "16px", minWidth: "46px" },
  ".cm-activeLine": { background: "transparent" },
  ".lit": { background: "var(--wash)" },
  ".mistaken": { background: "var(--chalk-wash)" },
  ".wrong": { borderBottom: "2px solid var(--chalk)", color: "var(--chalk)" },
  ".sentence": {
    display: "flex", gap: "14px", padding: "9px 24px 10px 12px", font: "400 16px/22px var(--sans)", whiteSpace: "normal",
    borderTop: "1.7px solid var(--chalk)", borderBottom: "1.7px solid var(--chalk)", background: "var(--sheet)",
  },
  ".put": {
    marginLeft: "auto", border: "0", borderBottom: "1px solid var(--blue)", padding: "0", background: "none", color: "var(--blue)",
    font: "400 16px/20px var(--sans)", cursor: "pointer", whiteSpace: "nowrap", alignSelf: "start",
  },
  ".cm-tooltip": { border: "1px solid var(--blue)", background: "var(--sheet)" },
  ".meant": { listStyle: "none", margin: "0", padding: "2px 0", font: "400 14px/22px var(--mono)", maxHeight: "242px", overflowY: "auto" },
  ".meant li": { padding: "0 12px", cursor: "pointer", color: "var(--ink)" },
  ".meant li[aria-selected=true]": { background: "var(--wash)", color: "var(--blue)", fontWeight: "600" },
  ".flag": {
    flex: "none", width: "20px", height: "20px", background: "var(--chalk)", color: "var(--on-chalk)",
    font: "600 13.5px/20px var(--sans)", textAlign: "center",
  },
});
