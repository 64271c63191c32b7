/** Todas las palabras en español. */
import { codes } from "./es/codes";
import { frame } from "./es/frame";
import { photos } from "./es/photos";
import { named } from "./es/named";
import { office } from "./es/office";
import { seen } from "./es/seen";
import { sources } from "./es/sources";
import { work } from "./es/work";

export const es = { ...frame, ...work, ...codes, ...office, ...named, ...photos, ...seen, ...sources };
