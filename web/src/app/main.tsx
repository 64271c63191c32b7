/** The beginning: the first paint, then the stored records, the engine and the office. */
import { effect } from "@preact/signals";
import { render } from "preact";
import "../theme/index.css";
import { preferences } from "../state";
import { isOffice, reader } from "../words";
import { App } from "./App";
import { start } from "./start";
import { startFault } from "./startFault";

const THEME_COLOURS = { light: "#f3f0e8", dark: "#14191c", sun: "#ffffff" } as const;

effect(() => {
  const { language, units, theme } = preferences.value;
  reader.value = { language, units };
  document.documentElement.lang = language;
  document.documentElement.dataset["theme"] = theme;
  document.querySelector('meta[name="theme-color"]')?.setAttribute("content", THEME_COLOURS[theme]);
});

const wide = matchMedia("(width >= 62rem)"); // where the style sheets lay the office out
const lookHowWide = () => { isOffice.value = wide.matches; };
wide.addEventListener("change", lookHowWide);
lookHowWide();

const root = document.getElementById("app");
if (root === null) throw new Error("The page has no place for the app.");
render(<App />, root);
start().catch((error: unknown) => {
  startFault.value = true;
  throw error;
});
