/** All words in English. */
import { brought } from "./en/brought";
import { codes } from "./en/codes";
import { cost } from "./en/cost";
import { frame } from "./en/frame";
import { joints } from "./en/joints";
import { levels } from "./en/levels";
import { photos } from "./en/photos";
import { named } from "./en/named";
import { office } from "./en/office";
import { seen } from "./en/seen";
import { sources } from "./en/sources";
import { work } from "./en/work";

export const en = { ...frame, ...brought, ...work, ...codes, ...cost, ...joints, ...levels, ...office, ...named, ...photos, ...seen, ...sources } as const;
