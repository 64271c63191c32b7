import type { fillcodes as english } from "../en/fillcodes";

/** Español de lo que el motor dice del relleno: problemas, avisos y fórmulas. */
export const fillcodes: Readonly<Record<keyof typeof english, string>> = {
  "problem.unknown_section": "Ningún tramo de este cuarto se llama {section}: la entrada no cuenta para ninguno.",
  "problem.no_section_there": "El lugar de esta entrada no está en ningún tramo de este cuarto: la entrada no cuenta para ninguno.",
  "problem.times_backwards": "Estas horas van hacia atrás: corrija la que está mal.",
  "problem.time_ahead": "Esta hora todavía no llega. ¿Está bien el reloj del teléfono?",
  "caution.mixer_outside": "La revolvedora no está sobre el piso de este cuarto: se cuenta como si estuviera afuera, en la salida. Póngala donde está.",
  "caution.thin_sections": "Tramos de menos de {width:length} de ancho: {count:number} ({names}). Una franja de cama tan angosta es difícil de apisonar: rellénela junto con la de al lado, o mueva las maestras.",
  "caution.sections_changed": "Se cambiaron maestras o muros después de empezar a rellenar. Tramos que ahora tienen otra forma que cuando se marcaron: {count:number} ({names}). Revise qué tramos están rellenos y márquelos de nuevo.",
  "caution.trapped": "Tramos que la cama fresca separa de la salida: {count:number} ({names}). No la pise: ponga tablas encima, o espere a que se pueda pisar.",
  "caution.batch_late": "Amasadas que pasaron su tiempo de trabajo: {count:number}. Tírelas: el agua revuelta en un mortero que ya empezó a fraguar lo debilita.",
  "caution.channels_late": "Tramos cuyos canales no se apretaron a tiempo: {count:number} ({names}). Corte los lados de los canales hasta el mortero firme, humedézcalos y apriételos tan densos como la cama.",
  "caution.cold_joint_cut": "Si el trabajo para ahora, {length:length} de borde no quedan ni a lo largo de una maestra ni en una junta de movimiento: córtelos a escuadra, hasta el subpiso, y hágales llave. Una junta fría puede rajar la loseta: su lugar es una junta de movimiento.",
  "caution.cold_joint_rail": "Si el trabajo para ahora, {length:length} de borde quedan a lo largo de maestras, no en una junta de movimiento: córtelo a escuadra a lo largo de la tira y hágale llave antes de seguir. El lugar de una junta fría es una junta de movimiento.",
  "formula.section_walk": "camino = del centro del tramo a la salida, sobre tramos que se rellenan después, por el medio de los lados que comparten, rodeando esquinas entrantes",
  "formula.channel": "canales = Σ ancho de la tira × su espesor × largo en el tramo; de dos tramos junto a una tira, es del que se rellena después",
  "formula.edge": "cimbra = el mayor de cama − subpiso a lo largo del borde, exacto",
  "formula.pace": "ritmo = Σ horas / Σ volumen de los tramos terminados; horas desde el fin del tramo anterior hasta su propio fin, o desde su primera amasada tras una pausa de más de 2 h; sin contar las paradas",
  "formula.done": "probable = ahora + horas que faltan, sin contar las paradas conocidas; temprano y tarde = horas que faltan × (1 ∓ margen); margen = 1.645 × s × √(1 / tramos hechos + 1 / tramos que faltan); s² = (3 × 0.2² + Σ desvío²) / (2 + tramos hechos), desvío del ritmo de cada tramo como parte del ritmo medio",
  "formula.last_batch": "última amasada = fin de la jornada − horas de trabajo por amasada al ritmo de hasta ahora",
  "formula.last_batch_unpaced": "aún sin ritmo: última amasada = fin de la jornada − tiempo de trabajo de una amasada",
  "formula.channels_due": "canales para = cuando el tramo quedó colocado + tiempo de trabajo a la temperatura de entonces",
  "formula.stop_edges": "en una junta: la mitad del borde o más a no más de 25 mm (1 pulg) de ella; a lo largo de una maestra: la mitad o más sobre su línea; si no, cortado",
  "formula.best_stop": "de los tramos que se pueden rellenar antes del fin de la jornada: aquel tras el cual queda menos borde lejos de maestras y juntas, luego menos lejos de juntas, luego menos en total, luego el más pronto",
};
