/** Choices of the person on this device: language, units, theme. Read at once, so that the first paint is right. */
import { effect, signal, type Signal } from "@preact/signals";
import type { Units } from "../wire";

export type Language = "en" | "es";
export type Theme = "light" | "dark" | "sun";

export interface Preferences {
  readonly language: Language;
  readonly units: Units;
  readonly theme: Theme;
}

const KEPT_AT = "evenbed.preferences";
const CHOICES: { readonly [P in keyof Preferences]: readonly Preferences[P][] } = {
  language: ["en", "es"],
  units: ["imperial", "metric"],
  theme: ["light", "dark", "sun"],
};

/** Change with `setPreference`; reading `.value` in a component subscribes it. */
export const preferences: Signal<Preferences> = signal(checkPreferences(kept(), firstPreferences()));

export function setPreference<P extends keyof Preferences>(name: P, value: Preferences[P]): void {
  preferences.value = { ...preferences.peek(), [name]: value };
}

/** Keeps what is kept and valid; the rest is as on the first start. */
export function checkPreferences(text: string | null, otherwise: Preferences): Preferences {
  const found = objectFrom(text);
  return {
    language: oneOf(CHOICES.language, found["language"]) ?? otherwise.language,
    units: oneOf(CHOICES.units, found["units"]) ?? otherwise.units,
    theme: oneOf(CHOICES.theme, found["theme"]) ?? otherwise.theme,
  };
}

function oneOf<T>(choices: readonly T[], value: unknown): T | undefined {
  return choices.find((choice) => choice === value);
}

function objectFrom(text: string | null): Readonly<Record<string, unknown>> {
  try {
    const value: unknown = JSON.parse(text ?? "{}");
    return typeof value === "object" && value !== null ? { ...value } : {};
  } catch {
    return {};
  }
}

/** The phone's own language; feet and inches where the region uses them. */
function firstPreferences(): Preferences {
  const locale = typeof navigator === "undefined" ? "en-US" : navigator.language;
  const prefersDark = typeof matchMedia !== "undefined" && matchMedia("(prefers-color-scheme: dark)").matches;
  return {
    language: locale.startsWith("es") ? "es" : "en",
    units: /-(US|LR|MM|PR)$/i.test(locale) || locale === "en" ? "imperial" : "metric",
    theme: prefersDark ? "dark" : "light",
  };
}

function kept(): string | null {
  return typeof localStorage === "undefined" ? null : localStorage.getItem(KEPT_AT);
}

effect(() => {
  const text = JSON.stringify(preferences.value);
  if (typeof localStorage !== "undefined") localStorage.setItem(KEPT_AT, text);
});
