/** All words in English. */
import { bought } from "./en/bought";
import { brought } from "./en/brought";
import { codes } from "./en/codes";
import { cost } from "./en/cost";
import { dates } from "./en/dates";
import { daybook } from "./en/daybook";
import { filling } from "./en/filling";
import { fillcodes } from "./en/fillcodes";
import { frame } from "./en/frame";
import { handed } from "./en/handed";
import { joints } from "./en/joints";
import { laying } from "./en/laying";
import { levels } from "./en/levels";
import { photos } from "./en/photos";
import { money } from "./en/money";
import { named } from "./en/named";
import { office } from "./en/office";
import { railcodes } from "./en/railcodes";
import { seen } from "./en/seen";
import { setting } from "./en/setting";
import { sources } from "./en/sources";
import { tops } from "./en/tops";
import { truingcodes } from "./en/truingcodes";
import { work } from "./en/work";

export const en = { ...frame, ...dates, ...daybook, ...filling, ...bought, ...brought, ...work, ...codes, ...fillcodes, ...handed, ...joints, ...cost, ...laying, ...levels, ...office, ...money, ...named, ...photos, ...railcodes, ...seen, ...setting, ...sources, ...tops, ...truingcodes } as const;
