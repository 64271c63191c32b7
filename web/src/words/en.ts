/** All words in English. */
import { codes } from "./en/codes";
import { frame } from "./en/frame";
import { photos } from "./en/photos";
import { named } from "./en/named";
import { office } from "./en/office";
import { seen } from "./en/seen";
import { sources } from "./en/sources";
import { work } from "./en/work";

export const en = { ...frame, ...work, ...codes, ...office, ...named, ...photos, ...seen, ...sources } as const;
