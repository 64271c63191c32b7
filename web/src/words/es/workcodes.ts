/** Español para lo que el motor dice donde la cama se raspa y se rellena. */
export const workcodes = {
  "caution.work_green": "Mientras la cama está fresca, rebaje los lomos con la llana de madera y rellene los huecos con mortero fresco, apisonado tan duro como la cama. El mortero fresco solo se une a la cama dentro de su tiempo de trabajo, hasta cerca de {fill_until:moment}. Lo blanda que está lo dice el pulgar, no esta cifra.",
  "caution.work_hardened": "La cama ha endurecido. Esmerilarla levanta polvo de sílice: trabaje en mojado o con extracción, y use respirador. Rellene los huecos con un compuesto de reparación según las instrucciones del fabricante, y déjelo fraguar antes de la loseta.",
  "caution.work_any": "No se ha dicho cuándo se colocó la cama. Mientras está fresca se rebaja con la llana de madera y se rellena con mortero fresco, apisonado. Ya dura se esmerila, lo que levanta polvo de sílice (en mojado o con extracción, con respirador), y se rellena con un compuesto de reparación según las instrucciones del fabricante.",
  "caution.work_reduced": "Con {readings} lecturas, o con tanta cama fuera de sus límites, no se miró cada línea para esta lista. Lo peor va primero y puede quedar más. Ponga otra vez la regla, o lea otra vez la cama, cuando esté hecha.",
  "caution.work_cut": "Solo se listan los {most} lugares de más efecto. Una cama con tantos se corrige mejor entera, cortándola o nivelándola, que lugar por lugar.",
  "formula.work_least": "de todos los modos de subir y bajar los lugares leídos, el que mueve menos mortero y deja en 4/5 de su límite cada hueco y lomo que lo pasaba; los vecinos movidos igual son un solo lugar",
} as const;
