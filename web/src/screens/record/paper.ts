/**
 * The paper that a record is printed on. Style sheets cannot ask what somebody chose, so the page's size and what stands at its
 * foot are a sheet of their own, there only while the record is shown.
 */
import { useLayoutEffect } from "preact/hooks";
import { getDraft, preferences, setDraft } from "../../state";
import { t } from "../../words";

export const PAPERS = ["a4", "letter"] as const;
export type Paper = (typeof PAPERS)[number];
const SIZES = { a4: "A4", letter: "letter" } as const;
/** Kept as a draft: this phone's printer does not change with the room. */
const KEPT = "paper";

export function paperChosen(): Paper {
  const kept = PAPERS.find((paper) => paper === getDraft(KEPT));
  return kept ?? (preferences.value.units === "imperial" ? "letter" : "a4");
}

export function choosePaper(paper: Paper): void {
  void setDraft(KEPT, paper);
}

/** As a text in a style sheet: whatever a room is called, it ends where it should. */
function quoted(text: string): string {
  return `"${text.replace(/["\\\n\r\f]/g, (sign) => `\\${sign.codePointAt(0)?.toString(16) ?? ""} `)}"`;
}

/** Margins that ordinary printers take; the foot stands in the lower one. */
export function pageRules(paper: Paper, foot: string, page: string): string {
  const [before = "", after = ""] = page.split("#");
  return `@page { size: ${SIZES[paper]}; margin: 14mm 13mm 17mm;
    @bottom-left { content: ${quoted(foot)}; font: 8pt sans-serif; color: #000; white-space: nowrap; }
    @bottom-right { content: ${quoted(before)} counter(page) ${quoted(`${after} `)} counter(pages); font: 8pt sans-serif; color: #000; white-space: nowrap; } }`;
}

export function usePaper(paper: Paper, foot: string): void {
  useLayoutEffect(() => {
    if (!("adoptedStyleSheets" in document)) return undefined; // an older browser asks for the paper itself
    const sheet = new CSSStyleSheet();
    sheet.replaceSync(pageRules(paper, foot, t("record.page")));
    document.adoptedStyleSheets = [...document.adoptedStyleSheets, sheet];
    return () => { document.adoptedStyleSheets = document.adoptedStyleSheets.filter((one) => one !== sheet); };
  }, [paper, foot]);
}
