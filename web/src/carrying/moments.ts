/** Moments as they may stand in a job file. */

const DATE = /^(\d{4})-(\d\d)-(\d\d)$/;
const ENVELOPE = /^((?:19|20|21)\d\d-\d\d-\d\d)T([01]\d|2[0-3]):[0-5]\d(:[0-5]\d(\.\d{1,9})?)?(Z|[+-]([01]\d|2[0-3]):[0-5]\d)$/;
const HOUR = String.raw`(?:[01]\d|2[0-3])`;
const TIME = String.raw`(?:${HOUR}(?::[0-5]\d(?::[0-5]\d(?:[.,]\d+)?)?)?|${HOUR}[0-5]\d(?:[0-5]\d(?:[.,]\d+)?)?)`;
/** ISO 8601 with an offset, as the service takes it in a record: any one character between day and time. */
const IN_A_RECORD = new RegExp(String.raw`^(\d{4}-\d\d-\d\d|\d{8}|\d{4}-W\d\d(?:-[1-7])?|\d{4}W\d\d[1-7]?)(?: |[^\p{C}\p{Z}])${TIME}(?:Z|[+-]${TIME})$`, "u");
const LAST_WEEK = 53;

/** When a change or the file was made: RFC 3339, of the years 1900 to 2199. */
export function isMoment(value: unknown): boolean {
  const day = typeof value === "string" ? ENVELOPE.exec(value)?.[1] : undefined;
  return day !== undefined && isDay(day);
}

/** A moment in a record. */
export function isRecordMoment(text: string): boolean {
  const day = IN_A_RECORD.exec(text)?.[1];
  if (day === undefined) return false;
  if (day.includes("W")) return isWeek(Number(/W(\d\d)/.exec(day)?.[1]));
  return isDay(day.includes("-") ? day : `${day.slice(0, 4)}-${day.slice(4, 6)}-${day.slice(6)}`);
}

function isWeek(week: number): boolean {
  return week >= 1 && week <= LAST_WEEK;
}

/** One that the calendar has. */
function isDay(text: string): boolean {
  const [year, month, day] = (DATE.exec(text) ?? []).slice(1).map(Number) as [number?, number?, number?];
  if (year === undefined || month === undefined || day === undefined || year < 1 || month < 1 || month > 12) return false;
  const isLeap = year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);
  const days = [31, isLeap ? 29 : 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
  return day >= 1 && day <= (days[month - 1] ?? 0);
}
