/** All words in English. */
import { codes } from "./en/codes";
import { frame } from "./en/frame";
import { sources } from "./en/sources";
import { work } from "./en/work";

export const en = { ...frame, ...work, ...codes, ...sources } as const;
