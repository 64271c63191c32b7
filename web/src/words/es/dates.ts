/** Español: fechas para calendarios, el tablero de la oficina y un pronóstico de fuera. */
export const dates = {
  "problem.date_ends_before": "La fecha termina el {end:moment}, antes de empezar el {start:moment}.",
} as const;
