/** Todas las palabras en español. */
import { bought } from "./es/bought";
import { brought } from "./es/brought";
import { codes } from "./es/codes";
import { cost } from "./es/cost";
import { dates } from "./es/dates";
import { daybook } from "./es/daybook";
import { filling } from "./es/filling";
import { fillcodes } from "./es/fillcodes";
import { frame } from "./es/frame";
import { handed } from "./es/handed";
import { joints } from "./es/joints";
import { laying } from "./es/laying";
import { levels } from "./es/levels";
import { photos } from "./es/photos";
import { money } from "./es/money";
import { named } from "./es/named";
import { office } from "./es/office";
import { railcodes } from "./es/railcodes";
import { seen } from "./es/seen";
import { setting } from "./es/setting";
import { sources } from "./es/sources";
import { tops } from "./es/tops";
import { truingcodes } from "./es/truingcodes";
import { work } from "./es/work";

export const es = { ...frame, ...dates, ...daybook, ...filling, ...bought, ...brought, ...work, ...codes, ...fillcodes, ...handed, ...joints, ...cost, ...laying, ...levels, ...office, ...money, ...named, ...photos, ...railcodes, ...seen, ...setting, ...sources, ...tops, ...truingcodes };
