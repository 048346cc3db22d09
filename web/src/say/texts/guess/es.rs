//! Spanish.

use super::{Sentences, Texts};

/// The texts.
pub(super) static TEXTS: Texts = Texts {
    view_guess: "Adivine y aprenda",
    guess_question: "Pregunta",
    guess_own: "La línea de esta página",
    guess_ask: "¿Hasta dónde llegan los pies del trabajador que más baja? Arrastre la marca en el dibujo o escriba una profundidad, y luego inicie la caída.",
    guess_how: "Arrastre la marca o escriba una profundidad, y luego inicie la caída.",
    guess_making: "Preparando la pregunta…",
    guess_put: "Poner este caso en la página",
    guess_put_done: "El caso de la pregunta está en la página. Deshacer regresa el suyo.",
    guess_covered: "La respuesta queda tapada hasta entonces.",
    guess_depth: "Profundidad bajo la línea",
    guess_slider: "Marca en el dibujo",
    guess_let_go: "Iniciar la caída",
    guess_again: "Adivinar otra vez",
    guess_tally: "Marcas en este dispositivo",
    guess_kept: "Se guardan solo en este dispositivo, para una clase; no se envía nada.",
    guess_clear: "Borrar las marcas",
    guess_drawing: "La cuadrilla sobre la viga y, abajo, su marca",
    guess_no_result: "No hay resultado que adivinar: corrija primero los datos.",
    exact: "justo en su marca",
    drawn_mark: "su marca",
    drawn_before: "antes",
    drawn_soles: "pies",
    say: Sentences {
        below_line: |depth| format!("{depth} bajo la línea"),
        outside: |low, high| format!("de {low} a {high}"),
        result: |mark, soles, difference| {
            format!("Su marca: {mark} bajo la línea. Calculado: {soles}, {difference}.")
        },
        deeper: |off| format!("{off} más abajo"),
        higher: |off| format!("{off} más arriba"),
        tally: |n, (deeper, higher, near), reach, middle| {
            let marks = if n == 1 { "marca" } else { "marcas" };
            format!(
                "{n} {marks}. Pies más abajo que la marca: {deeper}; más arriba: {higher}; a {reach} o menos: {near}. Error típico (mediana): {middle}."
            )
        },
    },
};
