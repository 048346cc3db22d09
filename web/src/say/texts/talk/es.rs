//! Spanish, as crews in North America speak it.

use super::{Sentences, Texts};

/// The texts.
pub(super) static TEXTS: Texts = Texts {
    talk: "Charla",
    talk_heading: "Charla con la cuadrilla",
    talk_intro: "Los pasos salen del caso de la página. Puede quitar, mover o redactar de nuevo cualquiera. El enlace lleva sus cambios.",
    talk_start: "Empezar la charla",
    talk_reset: "Restablecer los pasos",
    talk_steps: "Pasos de la charla",
    talk_on: "mostrar",
    talk_sentence: "frase",
    talk_earlier: "subir",
    talk_later: "bajar",
    talk_edited: "editada: sus números no se calculan",
    talk_empty: "No queda ningún paso por mostrar.",
    talk_no_result: "No hay resultado del que hablar: corrija primero los datos.",
    talk_making: "Calculando…",
    talk_screen: "Charla en la pantalla",
    talk_back: "Atrás",
    talk_next: "Siguiente",
    talk_play: "Iniciar la caída",
    talk_hold: "Pausa",
    talk_dark: "Pantalla negra",
    talk_light: "Mostrar otra vez la pantalla",
    talk_notes: "Notas",
    talk_end: "Terminar",
    talk_clock: "Tiempo desde que empezó la charla",
    talk_more: "Un usuario más",
    talk_fewer: "Un usuario menos",
    talk_left: "Mover la cuadrilla a la izquierda",
    talk_right: "Mover la cuadrilla a la derecha",
    talk_planned: "Según el plan",
    talk_try: "Probar otra cuadrilla",
    talk_no_further: "Ya no se puede más en esa dirección.",
    talk_keys: "Teclas: flechas o Re Pág y Av Pág cambian de paso, Espacio inicia y pausa, + y − prueban un usuario más o menos, Mayús con flecha mueve la cuadrilla, 0 vuelve al plan, B pone la pantalla en negro, N muestra las notas, Esc termina.",
    talk_link_fault: "Se abrió el caso, pero no la charla que trae el enlace.",
    talk_rows: "Espacio bajo los pies hasta ahora",
    handout: "Hoja de la charla",
    handout_note: "La charla en una página: un dibujo y una frase por paso, y el enlace como código para escanear. Se imprime desde cualquier parte de Explicar.",
    handout_languages: "Idiomas",
    handout_one: "Este idioma",
    handout_both: "Español e inglés, una página cada uno",
    handout_print: "Imprimir la hoja",
    handout_waits: "Todavía se está calculando. Vuelva a imprimir esta página en un momento.",
    film: "Video",
    film_note: "La caída como archivo de video, con la respuesta y las advertencias en la imagen. Este navegador lo graba mientras corre; no se envía nada.",
    film_make: "Grabar el video",
    film_stop: "Detener la grabación",
    film_making: "Grabando: deje esta página a la vista.",
    film_done: "El video está grabado: búsquelo en sus descargas.",
    film_none: "Este navegador no puede grabar video. Use otro navegador o guarde la caída como imagen en Archivo.",
    film_failed: "La grabación falló. Intente otra vez o guarde la caída como imagen en Archivo.",
    film_frame: "Un cuadro del video: la caída con la respuesta y las advertencias debajo",
    edited: "editada, números sin calcular",
    edited_note: "Las frases marcadas como editadas son suyas: sus números no se calculan y no siguen al caso.",
    caution: "Ayuda para enseñar. Decide la persona calificada, según los códigos locales y las instrucciones de los fabricantes. Primero, el plan de rescate.",
    word_sag: "de flecha en reposo",
    word_force: "fuerza de detención",
    not_searched: "Peor posición: no se buscó para esta cuadrilla",
    part_line: "línea",
    part_lanyard: "eslinga",
    part_absorber: "amortiguador",
    part_allowance: "incremento",
    part_harness: "arnés",
    part_body: "cuerpo",
    part_tolerance: "tolerancias",
    part_margin: "margen",
    code: "Llévesela: la misma línea en su teléfono. No se envía nada.",
    same_as_one: "tan abajo como uno solo",
    title_rest: "La línea en reposo",
    title_one: "Cae uno",
    title_two: "Caen dos",
    title_used_up: "El amortiguador se agota",
    title_post: "Un poste más",
    title_today: "Aquí, hoy",
    title_tried: "Con esta cuadrilla",
    title_code: "En su teléfono",
    note_code: "Apunte la cámara de un teléfono al código. Se abre la página con esta línea; el teléfono hace el cálculo.",
    note_rest: "Muestre los postes, los tirantes y la línea. Pregunte: ¿cuánto baja una persona hasta que se detienen los pies? Que cada quien diga un número antes de seguir.",
    note_one: "Muéstrela una vez, regrese y muéstrela de nuevo. Nombre las longitudes junto al dibujo desde arriba: línea, eslinga, amortiguador, arnés, cuerpo, margen.",
    note_two: "Pregunte primero: ¿le cambia algo al primero que haya otra persona en la misma línea? Luego inicie la caída.",
    note_all: "Todos comparten una línea: lo que hace uno lo sienten los demás. Pregunte quién está hoy enganchado en el mismo claro.",
    note_used_up: "El amortiguador se desgarra para que la fuerza no suba. Totalmente desplegado, se pone rígido. Revise la etiqueta: pesos admitidos, longitud, si ya se desplegó antes.",
    note_post: "Un claro más corto se deflecta menos. Mover o agregar un poste lo decide la persona calificada, no la cuadrilla.",
    note_today: "Repase: quién está en la línea, qué hay abajo, quién mantiene libre esa área y cómo se baja de inmediato a una persona colgada.",
    say: Sentences {
        title_all: |n| match n {
            2 => "Caen los dos".to_owned(),
            3 => "Caen los tres".to_owned(),
            4 => "Caen los cuatro".to_owned(),
            _ => format!("Caen los {n}"),
        },
        of_step: |what, step| format!("{step}: {what}"),
        place: |n, of| format!("{n} de {of}"),
        invented: |job| format!("{job} (inventado)"),
        rest: |sag, pretension| {
            format!("En reposo, tensada a {pretension}, la línea tiene {sag} de flecha.")
        },
        one: |depth, room| {
            format!("Cae uno: la caída ocupa {depth} bajo la línea; {room} después del margen.")
        },
        several: |who, compared, room| {
            if compared.is_empty() {
                format!("{who}: {room}.")
            } else {
                format!("{who}: {compared}, {room}.")
            }
        },
        hits: |worker| format!("{worker} golpea el nivel inferior"),
        hit: |what, said, room| format!("{what}: {said}, {room}."),
        deeper_than_one: |more| format!("{more} más abajo que uno solo"),
        higher_than_one: |less| format!("{less} más arriba que uno solo"),
        used_up: |worker, force| {
            format!("El amortiguador del trabajador {worker} se agota: la fuerza salta a {force}.")
        },
        used_up_at: |mass, together, force| {
            let who = if together {
                "cada uno, si caen todos,"
            } else {
                "con herramienta"
            };
            format!("Con {mass} {who} se agota un amortiguador: la fuerza salta a {force}.")
        },
        post: |span, room| {
            format!("Un poste más en el claro {span}, la cuadrilla en su peor posición: {room}.")
        },
        today: |room, worker, margin| {
            format!("Aquí, hoy: {room} bajo {worker}, después del margen de {margin}.")
        },
        tried: |room, worker, margin| {
            format!("Con esta cuadrilla: {room} bajo {worker}, después del margen de {margin}.")
        },
        live_users: |users, planned| {
            let users = if users == 1 {
                "1 usuario".to_owned()
            } else {
                format!("{users} usuarios")
            };
            format!("{users}, {planned} en el plan")
        },
        live_without: |places, n| {
            let who = if n == 1 {
                "quien está"
            } else {
                "quienes están"
            };
            format!("sin {who} a {places}")
        },
        live_moved: |by, right| {
            let way = if right { "derecha" } else { "izquierda" };
            format!("cuadrilla {by} a la {way}")
        },
        row_planned: |users| format!("Según el plan, {users}"),
    },
};
