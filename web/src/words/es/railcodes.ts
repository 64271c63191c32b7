import type { railcodes as english } from "../en/railcodes";

/** Español para lo que el motor dice de las maestras: problemas y avisos. */
export const railcodes: Readonly<Record<keyof typeof english, string>> = {
  "problem.rail_without_length": "Esta maestra no tiene largo: dibújela de al menos {least:length}, o quítela.",
  "problem.rails_not_parallel": "Esta maestra está girada {angle:number}° respecto de la más larga, y lo más es {most:number}°: la regla necesita maestras que corran lado a lado.",
  "caution.no_rails_placed": "Se quitaron todas las maestras: nada guía la regla. Ponga maestras, o tome las propuestas.",
  "caution.rail_outside": "La maestra {rail} queda fuera del piso y se omite.",
  "caution.rail_cut_off": "La maestra {rail} atraviesa una pared, un recorte o un accesorio: se le quitan {cut:length}. Dibújela solo hasta donde cabe.",
  "caution.rail_in_wall": "La maestra {rail} pasa a {distance:depth} de una pared: su listón quedaría dentro de ella. Su medio necesita {least:depth}.",
  "caution.rail_near_wall": "La maestra {rail} pasa a {distance:depth} de una pared y debe guardar {inset:depth}: la junta perimetral no queda libre.",
  "caution.rails_too_far": "Las maestras {rail} y {other} quedan a {distance:length} una de otra, y la regla más larga alcanza {most:length}: entre ellas la cama se hace a mano. Mueva una, o ponga otra en medio.",
  "caution.rails_too_close": "Las maestras {rail} y {other} quedan a {distance:length} una de otra: con menos de {least:length} no hay sitio para cortar la mezcla entre ellas.",
  "caution.rail_not_needed": "La maestra {rail} no hace falta en ninguna parte: las demás sirven todo lo que ella sirve.",
  "caution.rail_alone": "La maestra {rail} no sirve de nada: ninguna regla llega de ella a otra. Muévala, o ponga otra a su alcance.",
  "caution.rail_short": "La maestra {rail} mide {length:length}: la regla necesita {least:length} para correr.",
  "caution.by_hand": "Partes a las que no llega ninguna regla sobre maestras, sin contar las franjas junto a las paredes: {count:number}, {area:area} en total, la mayor {largest:area}. Cada una lleva su nombre y cómo terminarla: revíselas con la regla antes de que la cama endurezca.",

  "formula.shim_rounded": "calces en unidades enteras, cada uno hacia arriba o abajo, para que primero la mayor diferencia de redondeo entre vecinos, luego Σ de esas diferencias al cuadrado y luego Σ del redondeo al cuadrado sea mínima",
  "formula.ramp_volume": "mortero bajo los listones = ∫ calce × (ancho del listón + calce) a lo largo de la maestra: lados a 1:1, calces rectos entre puntos, nada bajo 0",
  "input.strip_width": "Listón, ancho",
  "input.rounded_sixteenth": "Lo más redondeado, en dieciseisavos",
  "input.rounded_millimetre": "Lo más redondeado, en milímetros",

  "caution.strip_too_thick": "Maestra {rail}: el listón de {strip:depth} es más grueso que la cama; puntos afectados: {count}. El peor es el punto {station}: la cama tiene ahí {bed:depth} y el listón sobraría {over:depth}. Use un listón de {thickest_fitting:depth} a lo más, pique el punto alto o suba toda la cama {raise:depth}.",
  "caution.no_bed_for_strip": "Maestra {rail}: casi no hay cama para un listón, o no la hay; puntos afectados: {count}. En el punto {station} es de menos de {least:depth}: para un listón de {strip:depth} pique el punto alto o suba toda la cama {raise:depth}.",
  "caution.strip_ends_at_break": "Maestra {rail}: la cama quiebra donde un listón recto no puede seguirla; veces: {count}, la primera en el punto {station}. Termine ahí el listón y empiece ahí el siguiente, los dos cortados a medida.",
  "caution.rail_on_step": "La maestra {rail} corre a lo largo de un escalón de {by:depth} en la cama: solo puede servir a un lado, y sus alturas no son de fiar. Muévala a un lado y ponga otra en el otro.",
  "caution.strips_short": "Listones de {thickness:depth} y {length:length} de largo a la mano: {count}. Las maestras {rail} y {other} van a los lados de la misma sección y las dos son de ellos: hacen falta {wanted}.",
  "caution.crease_between_rails": "Entre las maestras {rail} y {other} la cama quiebra hacia arriba: a {x:length} a lo ancho, {y:length} hacia arriba, una regla apoyada en las dos cortaría {by:depth} de más. Ponga una maestra a lo largo del lomo o corte en dos pasadas.",
  "caution.valley_between_rails": "Entre las maestras {rail} y {other} la cama quiebra hacia abajo: a {x:length} a lo ancho, {y:length} hacia arriba, una regla apoyada en las dos dejaría {by:depth} de más. Ponga una maestra a lo largo de la hondonada o corte en dos pasadas.",
};
