/** Spanish for what the engine says of truing: cautions, formulas and their inputs. */
export const truingcodes = {
  "caution.common_height_unknown": "Un nivel dice cómo están las maestras entre sí, nunca a qué altura están todas: antes de llenar, compruebe con la mira la altura de un punto.",
  "caution.level_out": "Este nivel yerra {per_metre:number} mm por metro ({per_four_feet:error} en 4 ft, 1.2 m): hágalo ajustar, o voltéelo en cada lectura y anote las dos.",
  "caution.level_short": "Un nivel de {length:length} se leyó sobre {run:length}, lo que dice {times:number} veces menos. Póngalo sobre la regla, levante el extremo bajo hasta que marque nivel y anote el hueco bajo ese extremo.",
  "caution.rail_reading_contradicts": "Una lectura a lo largo de la maestra {rail} se aparta {by:error} de lo que dicen las demás. Repítala antes de levantar una maestra.",
  "caution.rail_reading_across_contradicts": "Una lectura entre las maestras {first} y {second} se aparta {by:error} de lo que dicen las demás. Repítala antes de levantar una maestra.",
  "caution.too_many_read": "Se leyó más de lo que se calcula junto: como mucho {rails:number} maestras y {levels:number} niveles. Nivele el cuarto por partes.",

  "formula.truing_worst": "extremos de todas las maestras, cada una una recta, que hacen mínima Σ (residuo / error estándar)² con todas las lecturas juntas, el error del nivel entre las incógnitas; el peor = el más alejado de la cama",
  "formula.truing_raise": "subir = − lo que ese extremo está demasiado alto, según todas las lecturas juntas; las maestras que están bien se quedan",
  "formula.truing_mortar": "mortero = ancho del listón × largo de la maestra × subida / 2, una cuña bajo la maestra",
  "formula.level_error": "error = (lectura − lectura con el nivel volteado) / 2 / largo, según todas las lecturas juntas",

  "input.end_off": "Está demasiado alto por",
  "input.flips": "Lecturas en los dos sentidos",
  "input.level_sigma": "Error estándar, mm por metro",
  "input.rail_checks": "Lecturas que cuentan",
  "input.raised": "Subir",
  "input.reading_sigma": "Error estándar de una lectura",
  "input.set_sigma": "Error estándar de un extremo al ponerlo",
  "input.tolerance": "Lo más que puede errar una maestra",
} as const;
