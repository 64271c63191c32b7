/** English: dates for calendars, the office's board, and a forecast from outside. */
export const dates = {
  "problem.date_ends_before": "The date ends at {end:moment}, before it begins at {start:moment}.",
} as const;
