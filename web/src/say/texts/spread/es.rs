//! Spanish.

use super::{Sentences, Texts};

/// The texts.
pub(super) static TEXTS: Texts = Texts {
    view_spread: "Dispersión",
    spread_note: "Calcula este caso 1,000 veces. Cada vez, cada dato con tolerancia toma su propio valor, sorteado por igual dentro de más o menos su tolerancia. Esos datos son el peso y la fuerza del amortiguador de cada trabajador, cada extremo de la línea, la tensión inicial, el cable y el amortiguador de la línea. Un amortiguador nunca pasa de su fuerza máxima. Las posiciones, los tiempos y la fricción interna quedan como se anotaron.",
    spread_not: "Lo que esto no es: una medición. Las tolerancias son las que usted anotó. Sortear por igual, cada dato por su cuenta, es una suposición. Una parte de los sorteos no es la probabilidad de un accidente ni autoriza el uso.",
    spread_seed: "Semilla",
    spread_seed_hint: "Número entero de 0 a 999999. La misma semilla sortea las mismas caídas. Viaja en el enlace.",
    spread_seed_fault: "Anote un número entero de 0 a 999999.",
    spread_start: "Sortear 1,000 caídas",
    spread_stop: "Detener el sorteo",
    spread_running: "Sorteando…",
    spread_stopped: "Detenido antes del final: una parte de los sorteos no da resultado.",
    spread_nothing: "Ningún dato tiene tolerancia, así que todos los sorteos son iguales. Anote primero las tolerancias.",
    spread_no_answer: "No hay resultado para el caso como se anotó, así que no hay respuesta con la cual comparar los sorteos.",
    spread_no_draw: "Ningún sorteo tiene resultado.",
    spread_caption: "La respuesta y los sorteos",
    spread_answer: "la respuesta, donde está la cuadrilla",
    spread_sides: "solo las tolerancias, peor lado",
    spread_worst: "peor sorteo",
    spread_low: "5 de cada 100 sorteos son peores que",
    spread_middle: "sorteo de en medio",
    spread_given: "datos tal cual",
    spread_high: "5 de cada 100 sorteos son mejores que",
    spread_best: "mejor sorteo",
    spread_inputs: "Lo que hace cada dato",
    spread_input: "dato",
    spread_range: "sorteado entre",
    spread_rank_footroom: "correlación de rangos con el espacio",
    spread_share_footroom: "parte, espacio",
    spread_rank_tension: "correlación de rangos con la tensión",
    spread_share_tension: "parte, tensión",
    spread_inputs_note: "Correlación de rangos (Spearman): 1 cuando el orden de los sorteos es el del dato, -1 cuando es el inverso. Entre -0.06 y 0.06 no se distingue del azar. Parte: su cuadrado entre la suma de todos los cuadrados.",
    spread_pretension: "tensión inicial",
    spread_rope: "rigidez del cable, EA",
    spread_left: "rigidez del extremo izquierdo",
    spread_right: "rigidez del extremo derecho",
    spread_inline: "fuerza del amortiguador de la línea",
    spread_footroom: "Espacio bajo los pies en los sorteos",
    spread_tension: "Tensión máxima de la línea en los sorteos",
    spread_mark_answer: "la respuesta",
    spread_mark_middle: "en medio",
    spread_mark_given: "tal cual",
    spread_count: "sorteos",
    say: Sentences {
        spread_progress: |made, of| format!("{made} de {of} caídas calculadas."),
        spread_less: |n, of, answer| {
            format!("{n} de {of} sorteos dejan menos espacio que la respuesta ({answer}).")
        },
        spread_more: |n, of, answer| {
            format!("{n} de {of} sorteos jalan la línea más que la respuesta ({answer}).")
        },
        spread_beyond_sides: |n, sides| {
            format!("Peores que solo las tolerancias, todas en su peor lado ({sides}): {n}.")
        },
        spread_ends: |worst, middle| format!("Peor sorteo: {worst}. Sorteo de en medio: {middle}."),
        spread_above: |footroom, by| format!("{footroom}, {by} por encima de la respuesta"),
        spread_below: |footroom, by| format!("{footroom}, {by} por debajo de la respuesta"),
        spread_of_answer: |tension, percent| format!("{tension}, {percent}% de la respuesta"),
        spread_most: |footroom, tension| {
            format!(
                "Lo que más importa: para el espacio, {footroom}; para la tensión de la línea, {tension}."
            )
        },
        spread_with_share: |input, percent| format!("{input} (parte {percent}%)"),
        spread_explained: |footroom, tension| {
            format!(
                "Uno por uno, los datos explican el {footroom}% del orden de los sorteos por espacio y el {tension}% por tensión. El resto es lo que hacen juntos."
            )
        },
        spread_unknown: |n| {
            format!(
                "Sorteos sin resultado, que se dejan fuera: {n}. El peor puede estar entre ellos."
            )
        },
        spread_from_to: |low, high| format!("{low} a {high}"),
        spread_mass: |n| format!("peso, trabajador {n}"),
        spread_absorber: |n| format!("fuerza del amortiguador, trabajador {n}"),
        spread_words: |name, least, middle, greatest, answer| {
            format!("{name}: de {least} a {greatest}, en medio {middle}; la respuesta es {answer}.")
        },
    },
};
