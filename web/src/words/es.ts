/** Todas las palabras en español. */
import { codes } from "./es/codes";
import { frame } from "./es/frame";
import { sources } from "./es/sources";
import { work } from "./es/work";

export const es = { ...frame, ...work, ...codes, ...sources };
