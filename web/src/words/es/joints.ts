import type { joints as english } from "../en/joints";

/** Spanish: movement joints, and high spots brought down. */
export const joints: Record<keyof typeof english, string> = {
  "problem.slab_joint_empty": "Los dos extremos de esta junta de la losa son un mismo lugar.",
  "caution.joints_decide": "Dónde van las juntas de movimiento y qué ancho tienen lo deciden la edición vigente del manual de azulejo y quien proyecta: esto es un trazado para empezar. Nunca coloque baldosa encima de una junta de la losa.",
  "caution.joints_far_apart": "Juntas cada {used:length} están más lejos que los {most:length} del manual de azulejo: pregunte a quien proyecta.",
  "caution.joints_range_unknown": "No se dio la variación de temperatura: el ancho es el del manual hasta 100 °F (56 °C) de variación. Indique la que tendrá este piso.",
  "caution.slab_joints_passed": "Juntas de la losa que apenas pasan por este cuarto y se dejaron fuera: {count:number}. Revise dónde están.",
  "caution.too_many_panels": "Juntas cada {spacing:length} harían más de {most:number} paños: solo se trazan las juntas de la losa. Sepárelas más, o divida el piso en partes.",

  "source.movement_joints": "Juntas de movimiento: manual de azulejo, detalle EJ171, citado en revistas del oficio. En interiores cada 20 a 25 pies en ambos sentidos; en exteriores y en interiores con sol o agua cada 8 a 12 pies; en cada pared y esquina entrante; en exteriores 3/8 pulg a 8 pies, 1/2 pulg a 12 pies y 1/16 pulg más por cada 15 °F de variación sobre 100 °F; en interiores 1/4 pulg. Las ediciones difieren: decide la vigente.",
  "source.perimeter_joint": "Junta perimetral de al menos 1/4 pulg (de memoria). Que siga por las puertas, donde la baldosa toca otro piso: práctica común, sin fuente.",
  "source.expansion": "Dilatación lineal, según la física. Cuánto crece la baldosa y cuánto cede un sellador lo dicen sus fabricantes; 6 millonésimas por °F y ±25 % son comunes (de memoria).",

  "formula.joint_perimeter": "al menos 1/4 pulg (6.35 mm) donde la baldosa toca una pared, un recorte, lo que está en ella o, en una puerta, otro piso",
  "formula.joint_perimeter_length": "longitud = paredes + recortes + alrededor de lo que está en el lecho",
  "formula.joint_spacing_indoors": "en interiores ningún paño mide más de 25 pies (7.62 m), de un margen de 20 a 25 pies",
  "formula.joint_spacing_outdoors": "en exteriores, con sol o agua, ningún paño mide más de 12 pies (3.66 m), de un margen de 8 a 12 pies",
  "formula.joint_spacing_own": "ningún paño mide más de lo puesto en este cuarto",
  "formula.joint_layout": "primero las juntas de la losa, luego una desde cada esquina entrante y una por cada recorte grande, luego otras parejas tan separadas como se permita, en línea con otras o en baldosa entera donde se pueda",
  "formula.joint_panel": "el lado más largo de todos los paños, a lo largo o a través de la pared más larga",
  "formula.joint_width": "ancho = el mayor entre el publicado y, si se conoce la variación de temperatura, el del movimiento",
  "formula.joint_width_indoors": "1/4 pulg (6.35 mm) en interiores",
  "formula.joint_width_outdoors": "3/8 pulg (9.5 mm) hasta 8 pies (2.44 m), 1/2 pulg (12.7 mm) a 12 pies (3.66 m), en proporción entre ellos y más allá; 1/16 pulg (1.6 mm) más por cada 15 °F (8.3 °C) empezados de variación sobre 100 °F (55.6 °C)",
  "formula.joint_movement": "movimiento = dilatación × paño más largo × variación de temperatura",
  "formula.joint_width_by_movement": "ancho = movimiento / lo que cede el sellador",

  "input.fixtures": "Desagües, bridas, postes",
  "input.spacing": "Entre juntas, como máximo",
  "input.panels": "Paños",
  "input.panel": "Paño más largo",
  "input.published": "Según lo publicado",
  "input.by_movement": "Por el movimiento",
  "input.movement": "Movimiento",
  "input.temperature_range": "Variación de temperatura",
  "input.expansion": "Crece con el calor",
  "input.sealant": "El sellador cede",
};
